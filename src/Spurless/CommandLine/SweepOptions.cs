using System.CommandLine;
using System.Globalization;
using Spurless.Radio.Quantities;
using Spurless.Sites.Responses;

namespace Spurless.CommandLine;

/// <summary>
/// Frequencies at which a network is looked at: <c>--at F1,F2</c>, or a sweep by <c>--from</c>, <c>--to</c> and <c>--points</c>.
/// </summary>
internal sealed class SweepOptions
{
    private const int MostPoints = 1_000_000;
    private readonly int _mostPoints;

    /// <param name="mostPoints">Most points of a sweep.</param>
    public SweepOptions(int mostPoints = MostPoints)
    {
        _mostPoints = mostPoints;
        At = OptionKinds.Parsed<FrequencyList>(
            "--at", "F1,F2,...", "only these frequencies, like \"145.05 MHz,160.5125 MHz\"", FrequencyList.TryParse);
        From = OptionKinds.Parsed<Frequency>("--from", "F", "lowest frequency of a sweep, like \"100 MHz\"", Frequency.TryParsePositive);
        To = OptionKinds.Parsed<Frequency>("--to", "F", "highest frequency of a sweep", Frequency.TryParsePositive);
        Points = OptionKinds.Parsed<int>("--points", "N", "how many frequencies of a sweep; default 201", TryPoints);
    }

    public Option<FrequencyList?> At { get; }

    public Option<Frequency?> From { get; }

    public Option<Frequency?> To { get; }

    public Option<int?> Points { get; }

    public void AddTo(Command command)
    {
        command.Add(At);
        command.Add(From);
        command.Add(To);
        command.Add(Points);
    }

    /// <summary>The frequencies asked for; null where none were.</summary>
    /// <exception cref="UsageException">They contradict each other.</exception>
    public FrequencyChoice? Frequencies(CommandContext context)
    {
        (Frequency? from, Frequency? to, int? points) = (context.Value(From), context.Value(To), context.Value(Points));
        if (context.Value(At) is { } list)
        {
            return from is null && to is null && points is null
                ? FrequencyChoice.At(list.Hertz.Select(static f => (double)f))
                : throw new UsageException("--at and a sweep are two ways of saying which frequencies; write one of them");
        }

        if (from is null && to is null && points is null)
        {
            return null;
        }

        if (from is not { } low || to is not { } high)
        {
            throw new UsageException("a sweep needs both --from and --to; write both, or --at");
        }

        return low < high
            ? FrequencyChoice.Between(low.Hertz, high.Hertz, points ?? FrequencyChoice.UsualPoints)
            : throw new UsageException("--from is not below --to; write the lower frequency after --from");
    }

    private bool TryPoints(string text, out int value, out string problem)
    {
        problem = "";
        if (int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out value) && value >= 2 && value <= _mostPoints)
        {
            return true;
        }

        problem = string.Create(CultureInfo.InvariantCulture, $"'{text.Trim()}' is no number of points; write 2 to {_mostPoints}");
        return false;
    }
}
