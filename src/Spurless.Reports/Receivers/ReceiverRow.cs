using Spurless.Drawing.Words;
using Spurless.Mixing.Measurements;
using Spurless.Sites.Documents.Receivers;
using Spurless.Sites.Receivers;

namespace Spurless.Reports.Receivers;

/// <summary>A row of the table of a receiver's figures.</summary>
/// <param name="Quantity">What it is, as the CSV says it.</param>
/// <param name="What">What it is, in words.</param>
/// <param name="Figure">The figure; null where it cannot be given.</param>
/// <param name="Unit">dB or dBm.</param>
/// <param name="Value">The figure as printed, with its unit.</param>
/// <param name="From">Where it comes from.</param>
public sealed record ReceiverRow(
    string Quantity, string What, MeasuredFigure? Figure, string Unit, string Value, IReadOnlyList<string> From)
{
    /// <summary>The order of an intercept; 0 else.</summary>
    public int Order { get; init; }

    /// <summary>The frequency it is of, in hertz; 0 where it is of none.</summary>
    public long FrequencyHz { get; init; }

    /// <summary>The rows of an answer.</summary>
    public static IReadOnlyList<ReceiverRow> Of(ReceiverAnswer answer, Typography signs)
    {
        ArgumentNullException.ThrowIfNull(answer);
        List<ReceiverRow> rows = [];
        string[] noise = [.. answer.Document.Measured.OfType<SensitivityReading>().Select(s => ReceiverWords.Entry(s, signs))];
        if (answer is { Noise: { } floor, NoiseFigure: { } figure, Sensitivity: { } sensitivity })
        {
            rows.Add(Row("sensitivity", answer.SensitivityRead ? "sensitivity" : "sensitivity, worked out", sensitivity, "dBm", noise));
            rows.Add(Row(
                "noise_floor", $"noise floor in {Figures.Kilohertz(answer.Document.IfBandwidthHz, signs)} kHz", floor, "dBm", []));
            rows.Add(Row("noise_figure", "noise figure", figure, "dB", []));
        }

        foreach (InterceptFinding found in answer.Intercepts)
        {
            string what = FormattableString.Invariant($"IIP{found.Order}, {ReceiverWords.Reach(found)}");
            rows.Add(Row("intercept", what, found.Figure, "dBm", [.. ReceiverWords.From(found, signs)]) with { Order = found.Order });
        }

        foreach (TonesLoss loss in answer.Losses)
        {
            rows.Add(Row(
                "front_end_loss", $"front end, mean over {ReceiverWords.Mixture(loss.Reading, signs)}", loss.Mean, "dB",
                [ReceiverWords.Entry(loss.Reading.Entry, signs)]) with
            { Order = loss.Reading.Order });
        }

        foreach (OffChannelFinding found in answer.Responses)
        {
            rows.Add(OffChannel("rejection", "rejection at", found));
        }

        foreach (OffChannelFinding found in answer.Blockings)
        {
            rows.Add(OffChannel("blocking", "blocking at", found));
        }

        return rows;

        ReceiverRow Row(string quantity, string what, MeasuredFigure? of, string unit, IReadOnlyList<string> from) =>
            new(quantity, what, of, unit, of is null ? "not known" : $"{Figures.Db(of.Value, signs)} {unit}", from);

        ReceiverRow OffChannel(string quantity, string what, OffChannelFinding found)
        {
            string name = $"{what} {ReceiverWords.Mhz(found.FrequencyHz)} MHz";
            ReceiverRow row = Row(quantity, name, found.Ratio, "dB", [ReceiverWords.Entry(found.Entry, signs)]);
            return row with { FrequencyHz = found.FrequencyHz };
        }
    }
}
