using System.CommandLine;
using System.Globalization;
using Spurless.Circuits.Solving;
using Spurless.Circuits.Stress;
using Spurless.CommandLine;
using Spurless.Files.Diagnostics;
using Spurless.Radio.Quantities;
using Spurless.Reports.Bench;
using Spurless.Reports.Html;
using Spurless.Sites.Networks;
using Spurless.Terminals;

namespace Spurless.Commands;

/// <summary><c>stress CIRCUIT</c>: may I transmit through it, and which part gives first.</summary>
internal static class StressCommand
{
    private const double MostSwr = 1e6;

    public static Command Create(ITerminal terminal)
    {
        Argument<string> file = OptionKinds.File("CIRCUIT", "a circuit file");
        Option<Power?> power = OptionKinds.Parsed<Power>("--power", "P", "the transmitter's power, like \"50 W\"", Power.TryParse);
        Option<Frequency?> at = OptionKinds.Parsed<Frequency>("--at", "F", "the frequency transmitted on, like \"145.65 MHz\"", Frequency.TryParsePositive);
        Option<ComplexImpedance?> load = OptionKinds.Parsed<ComplexImpedance>("--load", "Z", "what is connected to the output, like \"30+20j ohm\"; default the port impedance", TryLoad);
        Option<double?> swr = OptionKinds.Parsed<double>("--swr", "R", "standing wave ratio at the output, in place of --load: the worst phase is taken, part by part", TrySwr);
        (power.Required, at.Required) = (true, true);

        Verb stress = new("stress", "says whether a circuit bears a transmitter's power, and which part gives first")
        {
            Details = "Peak voltage, rms current and heat of every part, held against its 'rated:' in the circuit file; a part without one is judged by usual limits, " +
                "which are said. Never try it on the word of a computation alone: the cautions stand below the result.",
            Examples =
            [
                new("stress demo/filters/three-tank.circuit.yaml --power \"50 W\" --at \"145.65 MHz\"", "The demo's receive filter behind 50 W: no."),
                new("stress demo/filters/three-tank.circuit.yaml --power \"50 W\" --at \"145.65 MHz\" --format html --out sheet.html", "The bench sheet, with schematic and response."),
                new("stress demo/filters/three-tank.circuit.yaml --power \"5 W\" --at \"145.65 MHz\" --swr 3", "5 W with an antenna that is off."),
            ],
        };
        stress.Add(file);
        stress.Add(power);
        stress.Add(at);
        stress.Add(load);
        stress.Add(swr);
        stress.Does(terminal, new OutputOptions("text", "json", "csv", "html"), (context, _) =>
        {
            if (context.Value(load) is not null && context.Value(swr) is not null)
            {
                throw new UsageException("--load and --swr are two ways of saying what is connected; write one of them");
            }

            StressLoad connected = context.Value(swr) is { } ratio ? StressLoad.Swr(ratio)
                : context.Value(load) is { } z ? StressLoad.Impedance(z.Ohms) : StressLoad.Matched;
            StressRequest request = new(context.Value(power)!.Value.Watts, context.Value(at)!.Value.Hertz, connected);
            DiagnosticBag findings = new();
            CircuitFile? circuit = CircuitFile.Load(context.Value(file), findings);
            StressResult? result = null;
            CircuitSolver? solver = circuit?.Solver(findings);
            if (solver is not null)
            {
                result = StressAnalysis.TryRun(solver, request, out CircuitFault? fault);
                if (fault is not null)
                {
                    circuit!.Report(fault, findings);
                }
            }

            int status = context.Tell(findings.InOrder());
            return Task.FromResult(result is null || status != ExitStatus.Done ? status : Write(context, circuit!, solver!, result));
        });
        return stress;
    }

    private static int Write(CommandContext context, CircuitFile circuit, CircuitSolver solver, StressResult result) => context.Format switch
    {
        "json" => context.WriteBytes(to => StressWriter.WriteJson(circuit.Circuit.Name, result, to)),
        "csv" => context.Write(to => StressWriter.WriteCsv(result, to)),
        "html" => BenchSheets.Write(context, new BenchSheetInput { Circuit = circuit.Circuit, Network = new CircuitTwoPort(solver), Stress = result, Inputs = circuit.Inputs }),
        _ => context.Write(to => StressWriter.WriteText(circuit.Circuit.Name, circuit.Circuit.ImpedanceOhm, result, to, context.Ink)),
    };

    private static bool TryLoad(string text, out ComplexImpedance value, out string problem)
    {
        if (!ComplexImpedance.TryParse(text, out value, out problem))
        {
            return false;
        }

        problem = $"'{text.Trim()}' gives power instead of taking it; write a resistance of 0 or more, like \"30+20j ohm\"";
        return value.Ohms.Real >= 0;
    }

    private static bool TrySwr(string text, out double value, out string problem)
    {
        problem = $"'{text.Trim()}' is no standing wave ratio; write a plain number of 1 or more such as 3";
        return double.TryParse(text, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out value) && value is >= 1 and <= MostSwr;
    }
}
