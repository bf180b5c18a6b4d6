using System.CommandLine;
using Spurless.CommandLine;
using Spurless.Radio.Quantities;
using Spurless.Reports.Mixes;
using Spurless.Sites;
using Spurless.Sites.Mixes;
using Spurless.Terminals;

namespace Spurless.Commands;

/// <summary><c>mix FREQUENCY --of F1,F2,...</c>: the arithmetic alone, without a file.</summary>
internal static class MixCommand
{
    public static Command Create(ITerminal terminal)
    {
        Argument<Frequency?> frequency =
            OptionKinds.Required<Frequency>("FREQUENCY", "the frequency you listen to; a bare number is in MHz", Carrier);
        Option<CarrierList?> of = OptionKinds.Parsed<CarrierList>(
            "--of", "F1,F2,...", "the frequencies on the air, with commas between them; bare numbers are in MHz", CarrierList.TryParse);
        of.Required = true;
        Option<Frequency?> channel = OptionKinds.Parsed<Frequency>(
            "--channel", "WIDTH", "how far from FREQUENCY still counts, like \"25 kHz\"; default 12.5 kHz", Width);
        Option<OrderRange?> orders = SearchOptions.Orders();
        Option<int?> signals = SearchOptions.Signals();

        Verb mix = new("mix", "says which sums and differences of frequencies land on a frequency")
        {
            Details =
                "Arithmetic only, without a file: levels and widths are not considered. For these, "
                    + "begin a site file with 'spurless new site'.",
            Examples =
            [
                new("mix 145.05 --of 160.525,466.1,94.2,50.85", "466.1000 - 2 x 160.5250 and 94.2000 + 50.8500 land exactly on it."),
                new("mix 145.05 --of 160.525,466.1 --channel \"25 kHz\" --format csv",
                    "Of two frequencies, farther off, for a spreadsheet."),
            ],
        };
        mix.Add(frequency);
        mix.Add(of);
        mix.Add(channel);
        mix.Add(orders);
        mix.Add(signals);
        mix.Does(terminal, new OutputOptions("text", "json", "csv"), (context, cancel) =>
        {
            MixQuestion question =
                new() { FrequencyHz = context.Value(frequency)!.Value.Hertz, CarriersHz = context.Value(of)!.Value.Hertz };
            question = question with
            {
                WithinHz = context.Value(channel)?.Hertz ?? question.WithinHz,
                Orders = context.Value(orders) is { } range ? (range.Lowest, range.Highest) : question.Orders,
                Signals = context.Value(signals) ?? question.Signals,
            };
            Outcome<MixAnswer> outcome;
            using (ProgressLine line = context.Progress("searching"))
            {
                outcome = MixService.Ask(question, new SearchProgressLine(line), cancel);
            }

            MixAnswer answer = outcome.Answer ?? throw new UsageException(outcome.Problem);
            if (context.Value(of)!.Value.MayHaveDecimalCommas && question.FrequencyHz % 1_000_000 != 0)
            {
                // Whoever listens on a part of a megahertz may have written decimal commas: another question, with an answer to it.
                context.Remark("spurless: " + MixWriter.ReadAs(question));
            }

            return Task.FromResult(context.Format switch
            {
                "json" => context.WriteBytes(to => MixWriter.WriteJson(answer, to)),
                "csv" => context.Write(to => MixWriter.WriteCsv(answer, to)),
                _ => context.Write(to => MixWriter.WriteText(answer, to, context.Ink)),
            });
        });
        return mix;
    }

    private static bool Carrier(string text, out Frequency value, out string problem) =>
        CarrierList.TryParseCarrier(text, out value, out problem);

    private static bool Width(string text, out Frequency value, out string problem)
    {
        if (!OptionKinds.TryParseWidth(text, out value, out problem))
        {
            return false;
        }

        if (!Frequency.TryParsePositive(text, out value, out problem))
        {
            return false;
        }

        if (value.Hertz <= MixQuestion.MostWithinHz)
        {
            return true;
        }

        problem = $"'{text.Trim()}' is too wide; write at most 500 GHz";
        return false;
    }
}
