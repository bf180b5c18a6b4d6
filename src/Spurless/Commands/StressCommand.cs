using System.CommandLine;
using System.Globalization;
using Spurless.Circuits.Stress;
using Spurless.CommandLine;
using Spurless.Files.Diagnostics;
using Spurless.Radio.Quantities;
using Spurless.Reports.Bench;
using Spurless.Sites.Sources;
using Spurless.Sites.Stresses;
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
        Option<Frequency?> at =
            OptionKinds.Parsed<Frequency>("--at", "F", "the frequency transmitted on, like \"145.65 MHz\"", Frequency.TryParsePositive);
        Option<ComplexImpedance?> load = OptionKinds.Parsed<ComplexImpedance>(
            "--load", "Z", "what is connected to the output, like \"30+20j ohm\"; default the port impedance", TryLoad);
        Option<double?> swr = OptionKinds.Parsed<double>(
            "--swr", "R", "standing wave ratio at the output, in place of --load: the worst phase is taken, part by part", TrySwr);
        (power.Required, at.Required) = (true, true);

        Verb stress = new("stress", "says whether a circuit bears a transmitter's power, and which part gives first")
        {
            Details =
                "Peak voltage, rms current and heat of every part, held against its 'rated:' in the circuit "
                    + "file; a part without one is judged by usual limits, " +
                "which are said. Never try it on the word of a computation alone: the cautions stand below the result.",
            Examples =
            [
                new("stress demo/filters/three-tank.circuit.yaml --power \"50 W\" --at \"145.65 MHz\"",
                    "The demo's receive filter behind 50 W: no."),
                new("stress demo/filters/three-tank.circuit.yaml --power \"50 W\" --at \"145.65 MHz\" --format html --out sheet.html",
                    "The bench sheet, with schematic and response."),
                new("stress demo/filters/three-tank.circuit.yaml --power \"5 W\" --at \"145.65 MHz\" --swr 3",
                    "5 W with an antenna that is off."),
            ],
        };
        stress.Add(file);
        stress.Add(power);
        stress.Add(at);
        stress.Add(load);
        stress.Add(swr);
        stress.Does(terminal, new OutputOptions("text", "json", "csv", "html"), async (context, cancel) =>
        {
            if (context.Value(load) is not null && context.Value(swr) is not null)
            {
                throw new UsageException("--load and --swr are two ways of saying what is connected; write one of them");
            }

            DiagnosticBag findings = new();
            SourceFile? source = await context.SourceAsync(context.Value(file), FileKind.Circuit, findings, cancel).ConfigureAwait(false);
            CircuitFile? circuit = source is null ? null : SourceReader.Circuit(source, findings);
            StressAnswer? answer = circuit is null ? null : StressService.Ask(new StressQuestion
            {
                Circuit = circuit.Circuit,
                PowerW = context.Value(power)!.Value.Watts,
                FrequencyHz = context.Value(at)!.Value.Hertz,
                Load = context.Value(swr) is { } ratio ? StressLoad.Swr(ratio)
                    : context.Value(load) is { } z ? StressLoad.Impedance(z.Ohms) : StressLoad.Matched,
                Inputs = circuit.Inputs,
            }).Told(findings, circuit);
            int status = context.Tell(findings.InOrder());
            if (answer is null || status != ExitStatus.Done)
            {
                return status;
            }

            string? page = context.Format == "html"
                ? await BenchReport.RenderAsync(BenchSheetInput.Of(answer), CommandContext.Made).ConfigureAwait(false)
                : null;
            return context.Format switch
            {
                "json" => context.WriteBytes(to => StressWriter.WriteJson(answer, to)),
                "csv" => context.Write(to => StressWriter.WriteCsv(answer, to)),
                "html" => context.Write(to => to.Write(page)),
                _ => context.Write(to => StressWriter.WriteText(answer, to, context.Ink)),
            };
        });
        return stress;
    }

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
        return double.TryParse(text, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out value)
            && value is >= 1 and <= MostSwr;
    }
}
