using Spurless.Reports.Words;
using Spurless.Sites.Studies;

namespace Spurless.Reports.Html;

/// <summary>A row of a mixture's sum.</summary>
internal sealed record SumRow(string What, string Before, string After, bool IsTotal = false, string BeforeStyle = "", string AfterStyle = "");

/// <summary>How the level of a mixture comes about, before and after, so that each column adds up as printed.</summary>
internal sealed record MixtureSum
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

            rows.Add(new SumRow($"what the {Figures.Ordinal(p.Order)}-order intercept makes of them", before?.Conversion ?? "", after.Conversion));
        }
        else
        {
            rows.Add(new SumRow("arrives already mixed, at the receiver", before?.Level ?? "", after.Level));
        }

        rows.Add(new SumRow("share inside the channel", before?.Share ?? "", after.Share));
        rows.Add(new SumRow("in the channel, dBm", before?.InChannel ?? "", after.InChannel, true));
        rows.Add(new SumRow("noise floor, dBm", before?.Noise ?? "", after.Noise));
        rows.Add(new SumRow("over noise, dB", before?.Over ?? "", after.Over, true, before?.Style ?? "", after.Style));
        return new MixtureSum { Finding = finding, HasFilter = before is not null, Rows = rows };
    }

    /// <summary>A mixture that sank under the report's floor, as it would be listed; null where its level cannot be told exactly.</summary>
    private static ProductFinding? Sunk(ReceiverFindings receiver, NumberedFinding finding) =>
        finding is { InChannelNowDbm: { } now, Before: { LevelDbm: { } level, InChannelLevelDbm: { } inChannel } before }
            ? before with { LevelDbm = now + level - inChannel, InChannelLevelDbm = now, OverNoiseDb = now - receiver.NoiseFloorDbm, Verdict = Verdict.Clear }
            : null;

    private sealed record Column(IReadOnlyList<string> Terms, string Conversion, string Level, string Share, string InChannel, string Noise, string Over, string Style)
    {
        public static Column Of(ReceiverFindings receiver, ProductFinding? product, NumberedFinding finding, StudyOptions options)
        {
            Term[] order = [.. StudyWords.InReadingOrder(finding.Either)];
            double?[] levels = [.. order.Select(t => Math.Abs(t.Coefficient) * receiver.Carriers[t.Emitter].LevelAtReceiverDbm)];
            double noise = Figures.Rounded(receiver.NoiseFloorDbm);
            if (product is { LevelDbm: { } level, InChannelLevelDbm: { } inChannel, OverNoiseDb: { } over } && levels.All(static l => l is not null))
            {
                // The printed noise is what is left of the printed level, so that both sums add up; a rounding of a tenth at most goes there.
                double[] known = [.. levels.Select(static l => l!.Value)];
                bool made = product.Mechanism == Mechanism.Receiver;
                double[] parts = made ? [.. known, level - known.Sum(), inChannel - level] : [level, inChannel - level];
                double shown = Figures.Rounded(noise + Figures.Rounded(over));
                IReadOnlyList<double> printed = PrintedSum.Of(parts, shown);
                return new Column(
                    made ? [.. printed.Take(known.Length).Select(static v => Figures.Db(v, Signs))] : [],
                    made ? Figures.SignedDb(printed[known.Length], Signs) : "",
                    made ? "" : Figures.Db(printed[0], Signs),
                    Figures.SignedDb(printed[^1], Signs),
                    Figures.Db(shown, Signs),
                    Figures.Db(noise, Signs),
                    Figures.SignedDb(over, Signs),
                    "is-" + (product.Verdict switch { Verdict.Harmful => "harm", Verdict.Marginal => "marg", _ => "quiet" }));
            }

            double? floor = ReportWords.Floor(receiver, options);
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
