using System.Globalization;
using Spurless.Reports.Cures;
using Spurless.Sites;
using Spurless.Sites.Cures;
using Spurless.Sites.Locating;
using Spurless.Sites.Sources;
using Spurless.Sites.Studies;

namespace Spurless.CommandLine;

/// <summary>What a study was asked about ways out.</summary>
/// <param name="Wanted">Whether they are wanted.</param>
/// <param name="Chosen">The one chosen; null for none.</param>
internal sealed record WaysOption(bool Wanted, WayChoice? Chosen)
{
    /// <summary>Refuses what makes no sense together.</summary>
    /// <exception cref="UsageException">It makes none.</exception>
    public void Check(string format, bool compares)
    {
        if (Chosen is not null && !Wanted)
        {
            throw new UsageException("--chosen names a way of the list that --ways makes; write both");
        }

        if (Wanted && compares)
        {
            throw new UsageException("--ways has nothing to do with --against; leave one of them out");
        }

        if (Wanted && format is not ("text" or "html"))
        {
            throw new UsageException($"--ways goes into text and HTML; for data ask 'cure SITE --format {format}'");
        }
    }

    /// <summary>The ways out, if they are wanted.</summary>
    /// <exception cref="UsageException">There is no way of that rank, or no receiver of that name.</exception>
    public ReportedWays? Of(
        CommandContext context, string path, SourceFile source, LoadedSite site, StudyOptions options, CancellationToken cancel)
    {
        if (!Wanted)
        {
            return null;
        }

        using ProgressLine line = context.Progress("studying ways out");
        Outcome<CureAnswer> outcome = CureService.Ask(
            new CureQuestion { Site = site, Source = source, Options = options, Filters = FiltersAtHand.Beside(path, site) },
            new CureProgressLine(line),
            cancel);
        CureAnswer answer = outcome.Answer ?? throw new UsageException(outcome.Problem);
        return new ReportedWays(answer, Chosen is { } chosen ? Ranks(answer, chosen) : new Dictionary<int, int>());
    }

    private static Dictionary<int, int> Ranks(CureAnswer answer, WayChoice chosen)
    {
        string names = string.Join(", ", answer.Receivers.Select(static r => r.Before.Name));
        if (chosen.Receiver is null && answer.Receivers.Count > 1)
        {
            throw new UsageException(
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"--chosen: each receiver has a list of its own; write NAME:{chosen.Rank} with one of: {names}"));
        }

        CuredReceiver cured = answer.Receivers.FirstOrDefault(r => chosen.Receiver is null || r.Before.Name == chosen.Receiver)
            ?? throw new UsageException($"--chosen: there is no receiver named '{chosen.Receiver}'; name one of: {names}");
        return chosen.Rank <= cured.Cures.Count
            ? new Dictionary<int, int> { [cured.Index] = chosen.Rank }
            : throw new UsageException(
                $"--chosen: there is no way {chosen.Rank.ToString(CultureInfo.InvariantCulture)} in the list; "
                + (cured.Cures.Count == 0 ? "nothing is to be cured, leave it out"
                    : $"write 1 to {cured.Cures.Count.ToString(CultureInfo.InvariantCulture)}"));
    }
}

/// <summary>A way out named by its rank in a receiver's list.</summary>
/// <param name="Receiver">The receiver's name; null where the site has one.</param>
/// <param name="Rank">From 1.</param>
internal readonly record struct WayChoice(string? Receiver, int Rank)
{
    /// <summary>Reads <c>1</c> or <c>repeater input:1</c>.</summary>
    public static bool TryParse(string text, out WayChoice value, out string problem)
    {
        int colon = text.LastIndexOf(':');
        problem = $"'{text.Trim()}' names no way; write its rank, from 1 on, or NAME:1";
        bool read = int.TryParse(text[(colon + 1)..].Trim(), NumberStyles.None, CultureInfo.InvariantCulture, out int rank) && rank >= 1;
        value = new WayChoice(colon < 0 ? null : text[..colon].Trim(), rank);
        return read;
    }
}
