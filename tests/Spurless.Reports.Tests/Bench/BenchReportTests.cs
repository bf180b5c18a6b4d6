using Spurless.Circuits.Parts;
using Spurless.Circuits.Requirements;
using Spurless.Circuits.Solving;
using Spurless.Circuits.Stress;
using Spurless.Circuits.Tolerance;
using Spurless.Reports.Bench;
using Spurless.Reports.Html;
using Spurless.Sites.Tolerances;

namespace Spurless.Reports.Tests.Bench;

public class BenchReportTests
{
    private static readonly ReportContext Context = new()
    {
        GeneratedAt = new DateTimeOffset(2026, 11, 25, 12, 0, 0, TimeSpan.Zero),
        ProgramVersion = "0.1.0",
    };

    [Fact]
    public async Task Bench_sheet_of_stress_begins_with_the_answer_and_shows_every_part()
    {
        BenchSheetInput input = Tank(out CircuitSolver solver);
        string html = await BenchReport.RenderAsync(
            input with { Stress = StressAnalysis.TryRun(solver, new StressRequest(50, 145e6, StressLoad.Matched), out _) }, Context);
        Assert.Contains(
            "<p class=\"lead\">No, do not transmit through it: 50\u00A0W leave",
            System.Net.WebUtility.HtmlDecode(html),
            StringComparison.Ordinal);
        string[] headings =
        [
            "May I transmit through it?", "Response", "Parts", "Coils by their dimensions", "Assumptions", "Cautions",
            "What this rests on",
        ];
        foreach (string heading in headings)
        {
            Assert.Contains($"{heading}</h2>", html, StringComparison.Ordinal);
        }

        Assert.Contains(new string('c', 64), html, StringComparison.Ordinal);
        Assert.DoesNotContain("Beryllia", html, StringComparison.Ordinal);
        Assert.DoesNotContain("<script", html, StringComparison.OrdinalIgnoreCase);
        Assert.DoesNotContain("http:", html, StringComparison.OrdinalIgnoreCase);
    }

    [Fact]
    public async Task Bench_sheet_of_tolerance_has_band_demands_and_ranking()
    {
        BenchSheetInput input = Tank(out CircuitSolver solver);
        MaskLine[] mask = [new(144e6, 146e6, MostLossDb: 1, LeastReturnLossDb: 10), new(300e6, 300e6, LeastLossDb: 40)];
        ToleranceRequest request = new()
        {
            FrequenciesHz = ToleranceGrid.ForPlots(input.Network, "tank", mask, [145e6]),
            Mask = mask,
            Samples = 300,
        };
        ToleranceResult result = ToleranceAnalysis.TryRun(solver, request, out _)!;
        ToleranceReading reading = new()
        {
            Name = "tank",
            Result = result,
            Requirement = "needed <here> & now",
            Mask = MaskCheck.Run(input.Network, mask),
            Tuning = TuningStudy.TryRun(solver, result),
            Assumptions = ToleranceReading.Assumed(result, "5 %", ["C1"]),
        };
        string html = await BenchReport.RenderAsync(input with { Tolerance = reading }, Context);
        Assert.Contains("class=\"band\"", html, StringComparison.Ordinal);
        Assert.Contains("class=\"mask\"", html, StringComparison.Ordinal);
        Assert.Contains("class=\"short\"", html, StringComparison.Ordinal);
        Assert.Contains("Which part does it</h2>", html, StringComparison.Ordinal);
        Assert.Contains("needed &lt;here&gt; &amp; now", html, StringComparison.Ordinal);
        Assert.Contains("As drawn it takes", html, StringComparison.Ordinal);
        Assert.Contains(
            "C1: 5\u00A0%, as asked for parts that state no tolerance.", System.Net.WebUtility.HtmlDecode(html), StringComparison.Ordinal);
    }

    [Fact]
    public void Frequencies_hold_those_asked_for_and_the_pass_band_of_the_mask()
    {
        BenchSheetInput input = Tank(out _);
        double[] all = ToleranceGrid.ForPlots(
            input.Network, "tank", [new(144e6, 146e6, MostLossDb: 1), new(460e6, 470e6, LeastLossDb: 40)], [123456789]);
        Assert.Contains(123456789, all);
        Assert.Contains(145e6, all);
        Assert.True(all[^1] >= 470e6);
        Assert.Equal(all.Order().Distinct(), all);
    }

    [Theory]
    [InlineData("50 W leave 24.3 W at 145.65 MHz", "50\u00A0W leave 24.3\u00A0W at 145.65\u00A0MHz")]
    [InlineData("5 Whitworth and 3 x 2", "5 Whitworth and 3 \u00D7 2")]
    public void Said_holds_figures_to_their_units(string plain, string said) => Assert.Equal(said, BenchSheetView.Said(plain));

    private static BenchSheetInput Tank(out CircuitSolver solver)
    {
        Circuit circuit = new()
        {
            Name = "tank",
            PortIn = "a",
            PortOut = "b",
            Parts =
            [
                new Capacitor
                {
                    Name = "C1",
                    From = "a",
                    To = "t",
                    Capacitance = PartValue.Known(4e-12),
                    Tolerance = PartTolerance.Uniform(0.05),
                    Loss = PartLoss.QualityFactor(400, 145e6),
                },
                new Coil
                {
                    Name = "L1",
                    From = "t",
                    To = Circuit.Ground,
                    Turns = 3,
                    DiameterM = 7e-3,
                    LengthM = 5e-3,
                    WireM = 1e-3,
                    Tolerance = PartTolerance.Normal(0.02),
                },
                new Capacitor
                {
                    Name = "C2",
                    From = "t",
                    To = Circuit.Ground,
                    Capacitance = PartValue.Known(15e-12),
                    Tolerance = PartTolerance.Series(24),
                    Rated = new PartRating(PeakVoltageV: 500),
                },
                new Capacitor { Name = "C3", From = "t", To = "b", Capacitance = PartValue.Known(4e-12) },
            ],
        };
        solver = CircuitSolver.Create(circuit);
        return new BenchSheetInput
        {
            Circuit = circuit,
            Network = new CircuitTwoPort(solver),
            Inputs = [new("tank.circuit.yaml", new string('c', 64))],
        };
    }
}
