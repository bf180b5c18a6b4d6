using Spurless.Drawing.Words;
using Spurless.Sites.Studies;

namespace Spurless.Reports.Studies;

/// <summary>A row of a mixture's sum.</summary>
public sealed record SumRow(
    string What, string Before, string After, bool IsTotal = false, string BeforeStyle = "", string AfterStyle = "");

/// <summary>How the level of a mixture comes about, before and after, so that each column adds up as printed.</summary>
public sealed record MixtureSum
{
    private static Typography Signs => Typography.Fine;

    /// <summary>The mixture.</summary>
    public required NumberedFinding Finding { get; init; }

    /// <summary>Whether there are two columns.</summary>
    public required bool HasFilter { get; init; }

    /// <summary>The rows.</summary>
    public required IReadOnlyList<SumRow> Rows { get; init; }

    /// <summary>The sum of one mixture of a receiver.</summary>
    public static MixtureSum Of(ReceiverFindings receiver, NumberedFinding finding, StudyOptions options)
    {
        Column? before = receiver.WithoutFilter is { } without ? Column.Of(without, finding.Before, finding, options) : null;
        Column after = Column.Of(receiver, finding.After ?? Sunk(receiver, finding), finding, options);
        ProductFinding p = finding.Either;
        List<SumRow> rows = [];
        if (p.Mechanism == Mechanism.Receiver)
        {
            Term[] terms = [.. StudyWords.InReadingOrder(p)];
            for (int i = 0; i < terms.Length; i++)
            {
                int times = Math.Abs(terms[i].Coefficient);
                string level = times == 1 ? "" : $", {times} {Signs.Times} its level";
                rows.Add(new SumRow(terms[i].Name + level, before?.Terms[i] ?? "", after.Terms[i]));
            }

            rows.Add(
                new SumRow(
                    $"what the {Figures.Ordinal(p.Order)}-order intercept makes of them", before?.Conversion ?? "", after.Conversion));
        }
        else if (finding.Either.Sum is not null)
        {
            rows.AddRange(MadeOutside(receiver, finding));
        }
        else
        {
            rows.Add(new SumRow("arrives already mixed, at the receiver", before?.Level ?? "", after.Level));
        }

        rows.Add(new SumRow("share inside the channel", before?.Share ?? "", after.Share));
        rows.Add(new SumRow("in the channel, dBm", before?.InChannel ?? "", after.InChannel, true));
        rows.Add(new SumRow("noise floor, dBm", before?.Noise ?? "", after.Noise));
        if (after.LeftOver != 0 || before?.LeftOver is not (null or 0))
        {
            rows.Add(new SumRow(PrintedSum.LeftOver, before is null ? "" : Zero(before.LeftOver), Zero(after.LeftOver)));
        }

        rows.Add(new SumRow("over noise, dB", before?.Over ?? "", after.Over, true, before?.Style ?? "", after.Style));
        return new MixtureSum { Finding = finding, HasFilter = before is not null, Rows = rows };
    }

    /// <summary>
    /// The way of a mixture from the transmitter that makes it to the receiver's input: the same in both columns but for the chain.
    /// </summary>
    private static IEnumerable<SumRow> MadeOutside(ReceiverFindings receiver, NumberedFinding finding)
    {
        IReadOnlyList<SumLine> before = finding.Before is { } b && receiver.WithoutFilter is { } without ? Lines(without, b) : [];
        IReadOnlyList<SumLine> after = finding.After is { } a ? Lines(receiver, a) : [];
        // An isolator stands in one of the columns only: a row is what both call the same, and the longer column has them all.
        IReadOnlyList<SumLine> names = before.Count > after.Count ? before : after;
        for (int i = 0; i < names.Count; i++)
        {
            bool total = names[i].Kind == SumLineKind.Subtotal;
            string what = SumWords.What(names[i]).Replace('\'', '\u2019') + (total || i == 0 ? ", dBm" : "");
            yield return new SumRow(what, Cell(before, names[i]), Cell(after, names[i]), total);
        }

        static string Cell(IReadOnlyList<SumLine> lines, SumLine row)
        {
            int i = Enumerable.Range(0, lines.Count).FirstOrDefault(n => lines[n].Part == row.Part && lines[n].Name == row.Name, -1);
            return i < 0
                ? ""
                : lines[i].Kind == SumLineKind.Part && i > 0 ? Figures.SignedDb(lines[i].Value, Signs)
                : Figures.Db(lines[i].Value, Signs);
        }

        static IReadOnlyList<SumLine> Lines(ReceiverFindings of, ProductFinding p) =>
            [.. PrintedSum.Of(ProductArithmetic.Of(of, p)).TakeWhile(static l => l.Part != SumPart.ShareInChannel)];
    }

    private static string Zero(double value) => value == 0 ? "" : Figures.SignedDb(value, Signs);

    /// <summary>A mixture that sank under the report's floor, as it would be listed; null where its level cannot be told exactly.</summary>
    private static ProductFinding? Sunk(ReceiverFindings receiver, NumberedFinding finding) =>
        finding is { InChannelNowDbm: { } now, Before: { LevelDbm: { } level, InChannelLevelDbm: { } inChannel } before }
            ? before with
            {
                LevelDbm = now + level - inChannel,
                InChannelLevelDbm = now,
                OverNoiseDb = now - receiver.NoiseFloorDbm,
                Verdict = Verdict.Clear,
            }
            : null;

    private sealed record Column(
        IReadOnlyList<string> Terms, string Conversion, string Level, string Share, string InChannel, string Noise, string Over,
        string Style, double LeftOver = 0)
    {
        public static Column Of(ReceiverFindings receiver, ProductFinding? product, NumberedFinding finding, StudyOptions options)
        {
            Term[] order = [.. StudyWords.InReadingOrder(finding.Either)];
            double?[] levels = [.. order.Select(t => Math.Abs(t.Coefficient) * receiver.Carriers[t.Emitter].LevelAtReceiverDbm)];
            double noise = Figures.Rounded(receiver.NoiseFloorDbm);
            bool made = finding.Either.Mechanism == Mechanism.Receiver;
            if (product is { LevelDbm: { } level, InChannelLevelDbm: { } inChannel, OverNoiseDb: { } over }
                && (!made || levels.All(static l => l is not null)))
            {
                // Levels, share, noise and what stands over it are printed as in the lists; the intercept's part stands nowhere else and
                // takes the rounding.
                double[] known = made ? [.. levels.Select(static l => l!.Value)] : [];
                double[] parts = made ? [.. known, level - known.Sum(), inChannel - level] : [Figures.Rounded(level), inChannel - level];
                IReadOnlyList<double> printed = PrintedSum.Of(parts, inChannel, made ? known.Length : 1);
                return new Column(
                    [.. printed.Take(known.Length).Select(static v => Figures.Db(v, Signs))],
                    made ? Figures.SignedDb(printed[known.Length], Signs) : "",
                    made ? "" : Figures.Db(printed[0], Signs),
                    Figures.SignedDb(printed[^1], Signs),
                    Figures.Db(inChannel, Signs),
                    Figures.Db(noise, Signs),
                    Figures.SignedDb(over, Signs),
                    "is-" + (product.Verdict switch { Verdict.Harmful => "harm", Verdict.Marginal => "marg", _ => "quiet" }),
                    PrintedSum.LeftOverDb(inChannel, noise, over));
            }

            double? floor = StudyReportWords.Floor(receiver, options);
            string unknown = product is not null ? "unknown" : "";
            return new Column(
                [.. levels.Select(static l => l is { } known ? Figures.Db(known, Signs) : "unknown")],
                "",
                unknown,
                "",
                product is null && floor is { } f ? $"under {Figures.Db(f, Signs)}" : unknown,
                Figures.Db(noise, Signs),
                product is null && floor is { } g ? $"under {Figures.SignedDb(g - receiver.NoiseFloorDbm, Signs)}" : unknown,
                "is-quiet");
        }
    }
}
