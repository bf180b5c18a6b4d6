namespace Spurless.Sites.Documents;

/// <summary>A log of who was on the air and whether the interference was heard.</summary>
/// <param name="File">The file's name as the user gave it.</param>
/// <param name="Names">The receivers and emitters that were observed, in the order of the columns.</param>
/// <param name="Rows">What was observed, by ascending time.</param>
public sealed record ObservationLog(string File, IReadOnlyList<string> Names, IReadOnlyList<ObservationRow> Rows)
{
    /// <summary>
    /// Each row's observation with the time from it to the next row. The last row holds for no time and is not among them; nor is a row
    /// without any observation.
    /// </summary>
    public IEnumerable<(ObservationRow Row, TimeSpan Held)> Spans()
    {
        for (int i = 0; i + 1 < Rows.Count; i++)
        {
            if (Rows[i].On.Any(static s => s is not null))
            {
                yield return (Rows[i], Rows[i + 1].Time - Rows[i].Time);
            }
        }
    }
}

/// <summary>What was observed from a moment on, until the next row.</summary>
/// <param name="Time">The moment; where the log states no zone, its clock is taken for UTC, so that only differences mean anything.</param>
/// <param name="On">By <see cref="ObservationLog.Names"/>: on (for a receiver: the interference was heard), off, or null for not
/// observed.</param>
/// <param name="Line">Line of the file, from 1.</param>
public sealed record ObservationRow(DateTimeOffset Time, IReadOnlyList<bool?> On, int Line);
