using Spurless.Drawing.Words;
using Spurless.Mixing.Evidence;
using Spurless.Sites.Locating;

namespace Spurless.Reports.Locating;

/// <summary>One line of the sheet to take along: what to do, what each leading possibility would read, who does it.</summary>
/// <param name="Ask">The observation.</param>
/// <param name="Do">What to do, a sentence.</param>
/// <param name="Who">Who does it.</param>
/// <param name="Readings">What each would read, in the order of <see cref="Leaders"/>.</param>
/// <param name="Unit">The unit that is read; empty for heard or not heard.</param>
/// <param name="Decides">Chance that it decides which one it is, or where it is made: the greater.</param>
public sealed record WorksheetRow(Observation Ask, string Do, string Who, IReadOnlyList<string> Readings, string Unit, double Decides)
{
    private const int Columns = 4;

    /// <summary>The rows, best first.</summary>
    /// <param name="located">The receiver.</param>
    /// <param name="typography">The signs to use.</param>
    public static IReadOnlyList<WorksheetRow> Of(LocatedReceiver located, Typography typography)
    {
        ArgumentNullException.ThrowIfNull(located);
        int[] leaders = Leaders(located);
        return
        [
            .. located.Next.Select(n => new WorksheetRow(
                n.Ask, LocateWriter.LocateWordsCapital(ObservationWords.Do(located, n.Ask, typography)), ObservationWords.Who(n.Ask),
                [.. leaders.Select(h => ObservationWords.Reading(located, n.Ask, h, typography))], ObservationWords.Unit(n.Ask),
                Math.Max(n.Decides, n.DecidesPlace))),
        ];
    }

    /// <summary>The likeliest hypothesis of each place of making, the likeliest place first, at most four.</summary>
    /// <param name="located">The receiver.</param>
    public static int[] Leaders(LocatedReceiver located)
    {
        ArgumentNullException.ThrowIfNull(located);
        return
        [
            .. located.Places.Take(Columns).Select(p => located.Ranked.First(h =>
                located.Weighed.Hypotheses[h].Place == p.Place && (p.Index < 0 || located.Weighed.Hypotheses[h].Index == p.Index))),
        ];
    }

    /// <summary>The head of the column of a hypothesis.</summary>
    /// <param name="located">The receiver.</param>
    /// <param name="hypothesis">Its index.</param>
    public static string Head(LocatedReceiver located, int hypothesis)
    {
        ArgumentNullException.ThrowIfNull(located);
        Hypothesis h = located.Weighed.Hypotheses[hypothesis];
        return LocateWords.ShortPlace(h.Place, located.NameOf(h.Place, h.Index), located.Findings.Name);
    }
}
