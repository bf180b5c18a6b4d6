using System.CommandLine;
using System.Globalization;
using Spurless.CommandLine;
using Spurless.Mixing.Search;
using Spurless.Radio.Quantities;
using Spurless.Reports.Mixes;
using Spurless.Terminals;

namespace Spurless.Commands;

/// <summary><c>mix FREQUENCY --of F1,F2,...</c>: the arithmetic alone, without a file.</summary>
internal static class MixCommand
{
    public static Command Create(ITerminal terminal)
    {
        Argument<Frequency?> frequency = OptionKinds.Required<Frequency>("FREQUENCY", "the frequency you listen to; a bare number is in MHz", Carrier);
        Option<CarrierList?> of = OptionKinds.Parsed<CarrierList>(
            "--of", "F1,F2,...", "the frequencies on the air, with commas between them; bare numbers are in MHz", CarrierList.TryParse);
        of.Required = true;
        Option<Frequency?> channel = OptionKinds.Parsed<Frequency>(
            "--channel", "WIDTH", "how far from FREQUENCY still counts, like \"25 kHz\"; default 12.5 kHz", Width);
        Option<OrderRange?> orders = SearchOptions.Orders();
        Option<int?> signals = SearchOptions.Signals();

        Verb mix = new("mix", "says which sums and differences of frequencies land on a frequency")
        {
            Details = "Arithmetic only, without a file: levels and widths are not considered. For these, begin a site file with 'spurless new site'.",
            Examples =
            [
                new("mix 145.05 --of 160.525,466.1,94.2,50.85", "466.1000 - 2 x 160.5250 and 94.2000 + 50.8500 land exactly on it."),
                new("mix 145.05 --of 160.525,466.1 --channel \"25 kHz\" --format csv", "Of two frequencies, farther off, for a spreadsheet."),
            ],
        };
        mix.Add(frequency);
        mix.Add(of);
        mix.Add(channel);
        mix.Add(orders);
        mix.Add(signals);
        mix.Does(terminal, new OutputOptions("text", "json", "csv"), (context, cancel) =>
        {
            OrderRange range = context.Value(orders) ?? OrderRange.Default;
            CarrierMixtures? found;
            using (ProgressLine line = context.Progress("searching"))
            {
                found = CarrierArithmetic.Find(
                    context.Value(frequency)!.Value.Hertz,
                    context.Value(channel)?.Hertz ?? 12_500,
                    context.Value(of)!.Value.Hertz,
                    (range.Lowest, range.Highest),
                    context.Value(signals) ?? SearchOptions.DefaultSignals,
                    new SearchProgressLine(line),
                    cancel);
            }

            if (found is null)
            {
                throw new UsageException($"more than {ProductList.DefaultLimit} mixtures land there; ask for fewer --orders, fewer --signals or a smaller --channel");
            }

            return Task.FromResult(context.Format switch
            {
                "json" => context.WriteBytes(to => MixWriter.WriteJson(found, to)),
                "csv" => context.Write(to => MixWriter.WriteCsv(found, to)),
                _ => context.Write(to => MixWriter.WriteText(found, to, context.Ink)),
            });
        });
        return mix;
    }

    private static bool Carrier(string text, out Frequency value, out string problem) => CarrierList.TryParseCarrier(text, out value, out problem);

    private static bool Width(string text, out Frequency value, out string problem)
    {
        if (double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out _))
        {
            value = default;
            problem = $"'{text.Trim()}' has no unit; write {text.Trim()} kHz";
            return false;
        }

        if (!Frequency.TryParsePositive(text, out value, out problem))
        {
            return false;
        }

        if (value.Hertz <= SearchProblem.MaxFrequencyHz / 2)
        {
            return true;
        }

        problem = $"'{text.Trim()}' is too wide; write at most 500 GHz";
        return false;
    }
}
