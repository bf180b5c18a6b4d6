using Spurless.Drawing.Words;
using Spurless.Reports.Text;
using Spurless.Sites.Chains;
using Spurless.Sites.Studies;

namespace Spurless.Reports.Studies;

/// <summary>Writes what a filter in line takes from each carrier, for a terminal; nothing where the chain has none.</summary>
internal static class FilterText
{
    private static readonly Typography Signs = Typography.Plain;

    /// <summary>Writes the carriers of a receiver, strongest behind the filter first, those of unknown level last.</summary>
    public static void Write(ReceiverFindings receiver, TextWriter output, TextInk ink)
    {
        CarrierFinding[] carriers =
        [
            .. receiver.Carriers.Where(static c => c.Rejection is not null)
                .OrderByDescending(static c => c.LevelAtReceiverDbm ?? double.NegativeInfinity)
                .ThenBy(static c => c.FrequencyHz),
        ];
        if (carriers.Length == 0)
        {
            return;
        }

        TextTable table = new(
            new TextColumn("carrier\nMHz", TextSide.Right),
            new TextColumn("without\ndBm", TextSide.Right),
            new TextColumn("with\ndBm", TextSide.Right),
            new TextColumn("rejection\ndB", TextSide.Right),
            new TextColumn("mismatched\nfrom .. to", TextSide.Right),
            new TextColumn("emitter", TextSide.Left, Wraps: true));
        foreach (CarrierFinding carrier in carriers.Take(StudyText.Shown))
        {
            FilterRejection rejection = carrier.Rejection!;
            double? after = carrier.LevelAtReceiverDbm;
            bool known = rejection is { LowDb: not null, HighDb: not null };
            table.Add(
                Figures.MegahertzExact(carrier.FrequencyHz),
                after is { } a ? Figures.Db(a + rejection.NominalDb, Signs) : "unknown",
                after is { } b ? Figures.Db(b, Signs) : "unknown",
                Figures.Db(rejection.NominalDb, Signs),
                known ? $"{Figures.Db(rejection.LowDb!.Value, Signs)} .. {Figures.Db(rejection.HighDb!.Value, Signs)}" : "not measured",
                carrier.Emitter);
        }

        if (carriers.Length > StudyText.Shown)
        {
            table.Note(
                $"and {Figures.Count(carriers.Length - StudyText.Shown, Signs)} weaker ones; --format json lists them all", TextTone.Faint);
        }

        output.Write('\n');
        output.Write(ink.Apply("Carriers at the receiver, without the filter and with it", TextTone.Strong));
        output.Write("\n\n");
        table.WriteTo(output, ink);
    }
}
