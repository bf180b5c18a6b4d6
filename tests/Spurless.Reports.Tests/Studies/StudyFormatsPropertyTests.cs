using System.Text.Json;
using CsCheck;
using Spurless.Drawing.Studies;
using Spurless.Drawing.Words;
using Spurless.Reports.Studies;
using Spurless.Reports.Tests.Text;
using Spurless.Sites.Studies;
using Spurless.Tests.Common;

namespace Spurless.Reports.Tests.Studies;

/// <summary>Studies by chance in JSON and CSV: both hold the result's own figures, in its order, null where it knows none.</summary>
public sealed class StudyFormatsPropertyTests
{
    [Fact]
    public void Json_of_any_study_holds_the_figures_of_the_result() => RandomStudies.Study.Sample(
        static study =>
        {
            JsonElement root = Json(study);
            JsonElement[] receivers = [.. root.GetProperty("receivers").EnumerateArray()];
            Assert.Equal(study.Receivers.Count, receivers.Length);
            foreach ((ReceiverFindings receiver, JsonElement json) in study.Receivers.Zip(receivers))
            {
                Assert.Equal(receiver.FrequencyHz, json.GetProperty("frequency_hz").GetInt64());
                Same(receiver.NoiseFloorDbm, json.GetProperty("noise_floor_dbm"));
                Same(receiver.SumOverNoiseDb, json.GetProperty("sum_over_noise_db"));
                Same(receiver.WantedLossDb, json.GetProperty("wanted_loss_db"));
                Assert.Equal(receiver.WithoutFilter is null, json.GetProperty("without_filter").ValueKind == JsonValueKind.Null);
                foreach ((CarrierFinding carrier, JsonElement c) in receiver.Carriers.Zip(json.GetProperty("carriers").EnumerateArray()))
                {
                    Same(carrier.LevelAtAntennaDbm, c.GetProperty("level_at_antenna_dbm"));
                    Same(carrier.LevelAtReceiverDbm, c.GetProperty("level_at_receiver_dbm"));
                    Assert.Equal(carrier.FrequencyHz, c.GetProperty("frequency_hz").GetInt64());
                }

                JsonElement[] products = [.. json.GetProperty("products").EnumerateArray()];
                Assert.Equal(receiver.Products.Count, products.Length);
                foreach ((ProductFinding product, JsonElement p) in receiver.Products.Zip(products))
                {
                    Same(product.LevelDbm, p.GetProperty("level_dbm"));
                    Same(product.InChannelLevelDbm, p.GetProperty("in_channel_level_dbm"));
                    Same(product.OverNoiseDb, p.GetProperty("over_noise_db"));
                    Same(product.SigmaDb, p.GetProperty("sigma_db"));
                    Assert.Equal(product.OverNoiseDb is null, p.GetProperty("verdict").GetString() == "unknown");
                    Assert.Equal(product.Effects is null, p.GetProperty("effects").ValueKind == JsonValueKind.Null);

                    // The sum of the terms is the frequency, and their magnitudes the order.
                    long sum = product.Terms.Sum(static t => t.Coefficient * t.FrequencyHz);
                    Assert.Equal(sum, p.GetProperty("frequency_hz").GetInt64());
                    Assert.Equal(
                        p.GetProperty("order").GetInt32(),
                        p.GetProperty("terms").EnumerateArray().Sum(static t => Math.Abs(t.GetProperty("coefficient").GetInt32())));
                }
            }
        },
        iter: 60);

    [Fact]
    public void Csv_of_any_study_holds_what_the_json_holds() => RandomStudies.Study.Sample(
        static study =>
        {
            using StringWriter csv = new();
            StudyCsv.Write(study, csv);
            List<List<string>> rows = WrittenText.Csv(csv.ToString());
            (string Receiver, JsonElement Product)[] products =
            [
                .. Json(study).GetProperty("receivers").EnumerateArray().SelectMany(
                    static r => r.GetProperty("products").EnumerateArray(), static (r, p) => (r.GetProperty("name").GetString()!, p)),
            ];
            Assert.Equal(products.Length, rows.Count - 1);
            foreach (((string receiver, JsonElement product), List<string> row) in products.Zip(rows.Skip(1)))
            {
                Assert.EndsWith(receiver, row[0], StringComparison.Ordinal); // an apostrophe before what would be a formula
                for (int column = 0; column < row.Count; column++)
                {
                    WrittenText.NoFormula(row[column]);
                    if (product.TryGetProperty(rows[0][column], out JsonElement value) && value.ValueKind != JsonValueKind.String)
                    {
                        Assert.Equal(value.ValueKind == JsonValueKind.Null ? "" : value.GetRawText(), row[column]);
                    }
                }

                // The mixture as printed adds up.
                PrintedArithmetic.AddsUp(row[14]);
            }
        },
        iter: 60);

    [Fact]
    public void Assumptions_of_any_receiver_stand_there_once_each_with_what_they_bear_on() => RandomStudies.Receiver().Sample(
        static receiver =>
        {
            IReadOnlyList<AssumptionRow> rows = Assumptions.Of(receiver, NumberedFinding.Of(receiver), LetteredCarrier.Of(receiver));
            Assert.All(rows, static r =>
            {
                Assert.EndsWith(".", r.What, StringComparison.Ordinal);
                Assert.NotEqual("", r.Touches);
                WrittenText.Figures(r.What + " " + r.Touches + " " + r.Worth);
                WrittenText.Agree(r.Touches);
                Assert.Equal(r.Touches.StartsWith("carrier ", StringComparison.Ordinal), r.Touches.StartsWith("carrier ",
                    StringComparison.Ordinal) && !r.Touches.Contains(',', StringComparison.Ordinal));
                Assert.Equal(r.Touches.StartsWith("finding ", StringComparison.Ordinal), r.Touches.StartsWith("finding ",
                    StringComparison.Ordinal) && !r.Touches.Contains(',', StringComparison.Ordinal));
            });
            Assert.Equal(rows.Count, rows.Select(static r => (r.What, r.Touches, r.Worth)).Distinct().Count());

            // Every carrier whose spread is known is in just one of the rows on how well levels hold.
            string[] letters =
            [
                .. rows.Where(static r => r.What.Contains("one sigma", StringComparison.Ordinal))
                    .SelectMany(static r => r.Touches.Split(' ', 2)[1].Split(", ")),
            ];
            Assert.Equal(receiver.Carriers.Count(static c => c.SigmaDb is not null), letters.Length);
            Assert.Equal(letters.Length, letters.Distinct().Count());
        },
        iter: 100);

    [Fact]
    public void Gaps_of_any_receiver_stand_in_five_lines_at_most_and_the_rest_is_counted() => RandomStudies.Receiver().Sample(
        static receiver =>
        {
            IReadOnlyList<string> lines = GapWords.Of(receiver);
            Assert.InRange(lines.Count, 0, GapWords.Most);
            Assert.All(lines, WrittenText.Figures);
            Assert.Equal(
                receiver.OtherCauses.Any(static c => c is { OnlyUsual: false, Missing.Count: > 0 }) || receiver.NotComputed.Count > 0
                    || UsualWords.Of(receiver).Any(),
                lines.Count > 0);
        },
        iter: 100);

    [Fact]
    public void Follows_of_any_receiver_advises_on_what_is_harmful_and_proves_before_it_blames() => RandomStudies.Receiver().Sample(
        static receiver =>
        {
            IReadOnlyList<NumberedFinding> findings = NumberedFinding.Of(receiver);
            IReadOnlyList<string> says = StudyReportWords.Follows(receiver, findings);
            Assert.All(says, static s =>
            {
                WrittenText.Figures(s);
                Assert.EndsWith(".", s, StringComparison.Ordinal);
            });
            Assert.Equal(
                findings.Any(static f => f.Now == Verdict.Harmful),
                says.Any(static s => s.StartsWith("Prove it first", StringComparison.Ordinal)));
            Assert.Equal(
                findings.Any(static f => f.Outcome == FindingOutcome.Cured) && receiver.WantedLossDb is not null,
                says.Any(static s => s.StartsWith("Keep the filter in", StringComparison.Ordinal)));

            // A mixture of order n made in the receiver falls by 3 n dB behind 3 dB.
            if (findings.FirstOrDefault(static f => f is { Now: Verdict.Harmful, After.Mechanism: Mechanism.Receiver }) is { } made)
            {
                Assert.Contains(says, s => s.Contains($"finding {made.Number}, made in this receiver, falls by {3 * made.After!.Order} dB",
                    StringComparison.Ordinal));
            }
        },
        iter: 100);

    private static void Same(double? value, JsonElement json)
    {
        if (value is { } known)
        {
            Assert.Equal(known, json.GetDouble(), 0.5000001e-6);
            Assert.Matches(@"^-?\d+\.\d{6}$", json.GetRawText());
        }
        else
        {
            Assert.Equal(JsonValueKind.Null, json.ValueKind);
        }
    }

    private static JsonElement Json(StudyResult study)
    {
        using MemoryStream to = new();
        StudyJson.Write(study, to);
        return JsonDocument.Parse(to.ToArray()).RootElement;
    }
}
