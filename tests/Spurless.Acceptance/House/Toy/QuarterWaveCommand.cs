using System.CommandLine;
using System.Globalization;
using Spurless.CommandLine;
using Spurless.Radio.Quantities;
using Spurless.Sites;
using Spurless.Terminals;

namespace Spurless.Acceptance.House.Toy;

/// <summary><c>quarter --at F</c>: parses into the question, asks, and writes the answer.</summary>
internal static class QuarterWaveCommand
{
    public static Command Create(ITerminal terminal)
    {
        Option<Frequency?> at =
            OptionKinds.Parsed<Frequency>("--at", "F", "the frequency, like \"145.05 MHz\"", Frequency.TryParsePositive);
        Option<double?> velocity = OptionKinds.Parsed<double>("--velocity", "V", "over that of light; default 0.66", TryShare);
        at.Required = true;
        Verb quarter = new("quarter", "gives the length of a quarter wave in a cable")
        {
            Examples = [new("quarter --at \"145.05 MHz\"", "In a cable of solid polyethylene.")],
        };
        quarter.Add(at);
        quarter.Add(velocity);
        quarter.Does(terminal, new OutputOptions("text", "json"), (context, _) =>
        {
            QuarterWaveQuestion question = new() { FrequencyHz = context.Value(at)!.Value.Hertz };
            question = question with { Velocity = context.Value(velocity) ?? question.Velocity };
            Outcome<QuarterWaveAnswer> outcome = QuarterWaveService.Ask(question);
            QuarterWaveAnswer answer = outcome.Answer ?? throw new UsageException(outcome.Problem);
            return Task.FromResult(context.Format == "json"
                ? context.WriteBytes(to => QuarterWaveWriter.WriteJson(answer, to))
                : context.Write(to => QuarterWaveWriter.WriteText(answer, to)));
        });
        return quarter;
    }

    private static bool TryShare(string text, out double value, out string problem)
    {
        problem = $"'{text.Trim()}' is no number; write a share such as 0.66";
        return double.TryParse(text, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out value);
    }
}
