using Spurless.Browser.Browsing;
using Spurless.Circuits.Parts;
using Spurless.Circuits.Requirements;
using Spurless.Circuits.Sensitivity;
using Spurless.Circuits.Solving;
using Spurless.Circuits.Stress;
using Spurless.Circuits.Tolerance;
using Spurless.Circuits.Touchstone;
using Spurless.Drawing.Responses;
using Spurless.Files.Diagnostics;
using Spurless.Reports.Bench;
using Spurless.Sites.Documents.Circuits;
using Spurless.Sites.Sources;
using Spurless.Sites.Tolerances;

namespace Spurless.Browser.Reports;

/// <summary>Bench sheets of the demo's filter: one for stress, one with everything a sheet can show.</summary>
internal static class BenchSheets
{
    /// <summary>50 W through the demo's filter.</summary>
    public static BenchSheetInput Stress()
    {
        Circuit circuit = Filter();
        CircuitSolver solver = CircuitSolver.Create(circuit);
        return new BenchSheetInput
        {
            Circuit = circuit,
            Network = new CircuitTwoPort(solver),
            Stress = StressAnalysis.TryRun(solver, new StressRequest(50, 145.65e6, StressLoad.Swr(2)), out _),
            Inputs = [new InputFile("filters/three-tank.circuit.yaml", new string('a', 64))],
        };
    }

    /// <summary>The same filter with one coil by its dimensions, held against a requirement that it misses, with a sweep.</summary>
    public static BenchSheetInput Tolerance()
    {
        Circuit traced = Filter();
        Circuit circuit = traced with
        {
            Parts = [.. traced.Parts.Select(static p => p is Inductor { Name: "L2" } l
                ? new Coil
                {
                    Name = l.Name,
                    From = l.From,
                    To = l.To,
                    Turns = 2,
                    DiameterM = 7e-3,
                    LengthM = 3.2e-3,
                    WireM = 1e-3,
                    LeadM = 1e-3,
                    Tolerance = l.Tolerance,
                }
                : p)],
        };
        CircuitSolver solver = CircuitSolver.Create(circuit);
        CircuitTwoPort network = new(solver);
        MaskLine[] mask =
        [
            new(144.9e6, 145.2e6, MostLossDb: 2, LeastReturnLossDb: 12),
            new(153.35e6, 153.35e6, LeastLossDb: 24),
            new(160.525e6, 160.525e6, LeastLossDb: 30),
            new(459e6, 467e6, LeastLossDb: 50),
        ];
        ToleranceRequest request = new()
        {
            FrequenciesHz = ToleranceGrid.ForPlots(network, circuit.Name, mask, []),
            Mask = mask,
            Samples = 2000,
            LowestC = -10,
            HighestC = 40,
        };
        ToleranceResult result = ToleranceAnalysis.TryRun(solver, request, out _)!;
        using FileStream sweep = File.OpenRead(Path.Combine(Artifacts.Root, "demo", "filters", "three-tank.s2p"));
        TouchstoneData measured = TouchstoneReader.Read(sweep, "three-tank.s2p", new DiagnosticBag())!;
        var points = Spurless.Circuits.Measured.MeasuredTwoPort.From(measured);
        return new BenchSheetInput
        {
            Circuit = circuit,
            Network = network,
            Stress = StressAnalysis.TryRun(solver, new StressRequest(5, 145.65e6, StressLoad.Matched), out _),
            Tolerance = new ToleranceReading
            {
                Name = circuit.Name,
                Result = result,
                Requirement = "quiet the repeater's input (invented)",
                Mask = MaskCheck.Run(network, mask),
                Tuning = TuningStudy.TryRun(solver, result),
                Sensitivity = SensitivityAnalysis.TryRun(solver, [145.05e6], out _),
                Assumptions = ToleranceReading.Assumed(result),
            },
            MeasuredGain = [.. points.FrequenciesHz.Zip(points.Points, static (f, s) => new PlotReading(f, -s.InsertionLossDb))],
            MeasuredName = "three-tank.s2p",
            Inputs =
            [
                new InputFile("filters/three-tank.circuit.yaml", new string('a', 64)),
                new InputFile("filters/quiet-input.requirement.yaml", new string('b', 64)),
            ],
        };
    }

    private static Circuit Filter()
    {
        const string Name = "three-tank.circuit.yaml";
        using FileStream stream = File.OpenRead(Path.Combine(Artifacts.Root, "demo", "filters", Name));
        DiagnosticBag findings = new();
        CircuitDocument document = CircuitReader.Read(stream, Name, static (string _, out Refusal? refusal) =>
        {
            refusal = new Refusal("the demo's filter names no file", "leave it so");
            return null;
        }, findings)!;
        Assert.False(findings.HasErrors);
        return document.Circuit;
    }
}
