using System.Globalization;
using System.Text;
using System.Text.Json;
using System.Text.RegularExpressions;
using CsCheck;
using Spurless.Drawing.Words;
using Spurless.Reports.Studies;
using Spurless.Reports.Tests.Text;
using Spurless.Reports.Text;
using Spurless.Sites.Studies;
using Spurless.Tests.Common;
using Spurless.Tests.Common.Fixtures;

namespace Spurless.Reports.Tests.Studies;

/// <summary>A study in every format, whatever it holds.</summary>
public sealed partial class StudyWritersTests
{
    [Fact]
    public void Text_of_any_study_has_no_broken_figure_and_agrees_in_number() => RandomStudies.Study.Sample(
        static study => WrittenText.Sound(Text(study)), iter: 400);

    [Fact]
    public void Text_begins_with_site_receiver_and_the_conclusion_and_has_each_once() => RandomStudies.Study.Sample(
        static study =>
        {
            string tight = Tight(Text(study));
            Assert.StartsWith(Printed(study.Site), tight, StringComparison.Ordinal);
            int at = 0;
            foreach (ReceiverFindings receiver in study.Receivers)
            {
                string head = Printed($"{receiver.Name},{Figures.MegahertzExact(receiver.FrequencyHz)} MHz, channel ");
                int headed = Math.Max(
                    tight.IndexOf(head, at, StringComparison.Ordinal),
                    tight.IndexOf(Printed(receiver.Name) + head[(Printed(receiver.Name).Length + 1)..], at, StringComparison.Ordinal));
                string lead = StudyText.Parted(StudyWords.Answer(receiver, Typography.Plain)).Lead;
                int said = tight.IndexOf(Printed(lead), Math.Max(0, headed), StringComparison.Ordinal);
                Assert.True(headed >= at && said > headed, $"from {at} head at {headed}, '{lead}' at {said} in {tight}");
                // Nothing stands between the head and the conclusion but the receiver's figures.
                Assert.InRange(said - headed, 1, 400);
                at = said;
            }
        },
        iter: 200);

    [Fact]
    public void Json_of_any_study_says_what_the_result_holds() => RandomStudies.Study.Sample(
        static study =>
        {
            string raw = Json(study);
            foreach (Match level in Level().Matches(raw))
            {
                Assert.True(level.Groups[2].Value is "null" || SixDecimals().IsMatch(level.Groups[2].Value), level.Value);
            }

            JsonElement root = JsonDocument.Parse(raw).RootElement;
            Assert.Equal("spurless-study/1", root.GetProperty("format").GetString());
            Assert.Equal(study.Receivers.Count, root.GetProperty("receivers").GetArrayLength());
            foreach ((ReceiverFindings receiver, JsonElement json) in study.Receivers.Zip(root.GetProperty("receivers").EnumerateArray()))
            {
                Same(receiver, json);
            }
        },
        iter: 200);

    [Fact]
    public void Csv_of_any_study_has_a_row_a_product_and_no_formula() => RandomStudies.Study.Sample(
        static study =>
        {
            using StringWriter text = new();
            StudyCsv.Write(study, text);
            List<List<string>> rows = WrittenText.Csv(text.ToString());
            (ReceiverFindings Receiver, ProductFinding Product)[] all =
                [.. study.Receivers.SelectMany(static r => r.Products.Select(p => (r, p)))];
            Assert.Equal(all.Length, rows.Count - 1);
            Assert.Equal(16, rows[0].Count);
            foreach (((ReceiverFindings receiver, ProductFinding product), List<string> row) in all.Zip(rows.Skip(1)))
            {
                Assert.Equal(16, row.Count);
                Assert.All(row, WrittenText.NoFormula);
                Assert.Equal(receiver.Name, Told(row[0]));
                Assert.Equal(product.OverNoiseDb is null, row[3].Length == 0);
                Near(product.OverNoiseDb, row[3]);
                Near(product.InChannelLevelDbm, row[2]);
                Assert.Equal(product.FrequencyHz, long.Parse(row[5], CultureInfo.InvariantCulture));
                Assert.Equal(product.MadeIn, Told(row[9]));
                Assert.Equal(string.Join("; ", product.Terms.Select(static t => t.Name)), Told(row[15]));
            }
        },
        iter: 200);

    [Fact]
    public void Comparison_of_a_study_with_itself_finds_nothing_and_of_two_is_mirrored() =>
        Gen.Select(RandomStudies.Study, RandomStudies.Study).Sample(
            static (before, now) =>
            {
                Assert.All(
                    StudyComparison.Of(now, now).Receivers, static r => Assert.Equal(0, r.Appeared.Count + r.Went.Count + r.Changed.Count));
                StudyComparison there = StudyComparison.Of(before, now), back = StudyComparison.Of(now, before);
                foreach (ReceiverComparison receiver in there.Receivers)
                {
                    ReceiverComparison mirrored = back.Receivers.Single(r => r.Name == receiver.Name);
                    Assert.Equal(receiver.Appeared, mirrored.Went);
                    Assert.Equal(receiver.Went, mirrored.Appeared);
                    Assert.Equal(receiver.Unchanged, mirrored.Unchanged);
                }

                using StringWriter text = new();
                ComparisonText.Write(there, text, TextInk.None);
                WrittenText.Sound(text.ToString());
                using MemoryStream json = new();
                ComparisonJson.Write(there, json);
                JsonElement root = JsonDocument.Parse(json.ToArray()).RootElement;
                Assert.Equal(
                    there.Receivers.Select(static r => (r.Name, r.Appeared.Count, r.Went.Count, r.Changed.Count, r.Unchanged)),
                    root.GetProperty("receivers").EnumerateArray().Select(static r => (
                        r.GetProperty("name").GetString()!, r.GetProperty("appeared").GetArrayLength(),
                        r.GetProperty("went").GetArrayLength(), r.GetProperty("changed").GetArrayLength(),
                        r.GetProperty("unchanged").GetInt32())));
            },
            iter: 100);

    [Fact]
    public void Text_of_three_hundred_emitters_of_unknown_level_is_short_and_says_what_to_measure()
    {
        ReceiverFindings demo = DemoStudy.Receiver(false, []);
        CarrierFinding[] carriers =
        [
            .. Enumerable.Range(0, 300).Select(i => demo.Carriers[0] with
            {
                Emitter = FormattableString.Invariant($"base {i}"),
                FrequencyHz = 146_000_000 + (i * 12_500L),
                LevelAtAntennaDbm = null,
                LevelAtReceiverDbm = null,
                SigmaDb = null,
            }),
        ];
        ProductFinding unknown = DemoStudy.Product(
            null, null, Mechanism.Receiver, "repeater input", ("regional paging", 1), ("waterworks base", -2));
        ProductFinding[] products =
        [
            .. Enumerable.Range(1, 299).Select(i => unknown with
            {
                Terms = [new Term(i, carriers[i].Emitter, carriers[i].FrequencyHz, 2), new Term(0, "base 0", 146_000_000, -1)],
                FrequencyHz = (2 * carriers[i].FrequencyHz) - 146_000_000,
            }),
        ];
        ReceiverFindings receiver = demo with { Carriers = carriers, Products = products };
        string text = Text(DemoStudy.Result(receiver));

        WrittenText.Sound(text);
        // base 0 is in every one of the 299.
        Assert.Contains("Measure next how strong base 0 arrives: 299 mixtures with it can land here", Flat(text), StringComparison.Ordinal);
        Assert.Contains("20 of 299 mixtures are shown", Flat(text), StringComparison.Ordinal);
        Assert.Contains("No level is known yet. By arithmetic alone 299 mixtures can land on", Flat(text), StringComparison.Ordinal);
        Assert.InRange(text.Count(static c => c == '\n'), 30, 100);
    }

    private static void Same(ReceiverFindings receiver, JsonElement json)
    {
        Assert.Equal(receiver.Name, json.GetProperty("name").GetString());
        Assert.Equal(receiver.Harmful, json.GetProperty("harmful").GetInt32());
        Assert.Equal(receiver.Marginal, json.GetProperty("marginal").GetInt32());
        Assert.Equal(receiver.WithoutFilter?.Harmful, json.GetProperty("without_filter") is { ValueKind: JsonValueKind.Object } w
            ? w.GetProperty("harmful").GetInt32() : null);
        foreach ((CarrierFinding carrier, JsonElement c) in receiver.Carriers.Zip(json.GetProperty("carriers").EnumerateArray()))
        {
            Near(carrier.LevelAtAntennaDbm, c.GetProperty("level_at_antenna_dbm"));
            Near(carrier.LevelAtReceiverDbm, c.GetProperty("level_at_receiver_dbm"));
        }

        Assert.Equal(receiver.Products.Count, json.GetProperty("products").GetArrayLength());
        double last = double.PositiveInfinity;
        foreach ((ProductFinding product, JsonElement p) in receiver.Products.Zip(json.GetProperty("products").EnumerateArray()))
        {
            Near(product.LevelDbm, p.GetProperty("level_dbm"));
            Near(product.InChannelLevelDbm, p.GetProperty("in_channel_level_dbm"));
            Near(product.OverNoiseDb, p.GetProperty("over_noise_db"));
            Near(product.Chance, p.GetProperty("chance"));
            Assert.Equal(product.KeepsItselfUp, p.GetProperty("keeps_itself_up").GetBoolean());
            Assert.Equal(product.Saturated, p.GetProperty("saturated").GetBoolean());
            Assert.Equal(
                product.Terms.Select(static t => (t.Name, t.Coefficient)),
                p.GetProperty("terms").EnumerateArray().Select(static t => (
                    t.GetProperty("emitter").GetString()!, t.GetProperty("coefficient").GetInt32())));

            // docs/formats/results.md: worst first, unknown last; harmful from 0 dB, marginal from -10 dB.
            JsonElement level = p.GetProperty("over_noise_db");
            double over = level.ValueKind == JsonValueKind.Number ? level.GetDouble() : double.NegativeInfinity;
            Assert.True(over <= last + 1e-6);
            last = over;
            string verdict = p.GetProperty("verdict").GetString()!;
            if (Math.Abs(over) > 1e-6 && Math.Abs(over + 10) > 1e-6)
            {
                Assert.Equal(
                    double.IsNegativeInfinity(over) ? "unknown" : over > 0 ? "harmful" : over > -10 ? "marginal" : "clear", verdict);
            }

            Assert.Equal(verdict == "unknown", p.GetProperty("heard").ValueKind == JsonValueKind.Null);
        }
    }

    private static void Near(double? expected, JsonElement actual) => Near(
        expected, actual.ValueKind == JsonValueKind.Null ? "" : actual.GetRawText());

    // Six decimals: half of the last one.
    private static void Near(double? expected, string actual)
    {
        Assert.Equal(expected is null, actual.Length == 0);
        if (expected is { } value)
        {
            Assert.Equal(value, double.Parse(actual, CultureInfo.InvariantCulture), 0.5000001e-6);
        }
    }

    // The apostrophe before what a spreadsheet would compute is not the user's.
    private static string Told(string cell) => cell.StartsWith('\'') && cell.Length > 1 ? cell[1..] : cell;

    // As it is read, lines joined.
    private static string Flat(string text) => Whites().Replace(text, " ");

    // A word longer than a line is broken: without any spaces.
    private static string Tight(string text) => Whites().Replace(text, "");

    private static string Printed(string text) => Tight(TextFlow.Printable(text));

    private static string Text(StudyResult study)
    {
        using StringWriter text = new();
        StudyText.Write(study, text, TextInk.None);
        return text.ToString();
    }

    private static string Json(StudyResult study)
    {
        using MemoryStream stream = new();
        StudyJson.Write(study, stream);
        return Encoding.UTF8.GetString(stream.ToArray());
    }

    [GeneratedRegex("\"([a-z_]+_dbm?)\": ([^,\\n]+)")]
    private static partial Regex Level();

    [GeneratedRegex(@"^-?\d+\.\d{6}$")]
    private static partial Regex SixDecimals();

    [GeneratedRegex(@"\s+")]
    private static partial Regex Whites();
}
