using System.Globalization;
using System.Text.Json;
using CsCheck;
using Spurless.Drawing.Words;
using Spurless.Reports.Cures;
using Spurless.Reports.Tests.Text;
using Spurless.Reports.Text;
using Spurless.Sites.Cures;
using Spurless.Sites.Studies;
using Spurless.Tests.Common;
using Spurless.Tests.Common.Fixtures;

namespace Spurless.Reports.Tests.Cures;

/// <summary>Ways out by chance, wilder than a site makes them: each format says the same, and every text is sound.</summary>
public sealed class CureWriterTests
{
    private static readonly Gen<string> _name = Gen.Frequency<string>(
        (3, Gen.String[Gen.Char['a', 'z'], 1, 12]),
        (1, Gen.OneOf("=call", "-1+1", "a, b", "with \"quotes\"", "turn\nround", "tab\there", "x", "\u202eturned", new string('w', 90))));

    private static readonly Gen<CureStep> _step = Gen.OneOf<CureStep>(
        Gen.Select(Gen.Int[1, 30], Gen.Enum<ChainPlace>(), static (db, at) => (CureStep)new PadStep(db, at)),
        Gen.Select(Gen.Bool, static b => (CureStep)new AmplifierStep(b)),
        Gen.Select(Gen.Int[1, 12], static db => (CureStep)new InterceptStep(db)),
        Gen.Select(_name, Gen.Bool, Gen.Enum<Isolators>(), Gen.Long[30_000_000, 470_000_000].Array[1, 3],
            static (n, own, kind, at) => (CureStep)new IsolatorStep(n, own, kind, at)),
        Gen.Select(_name, Gen.Bool, static (n, own) => (CureStep)new OutputCavityStep(n, own, 145_050_000)),
        Gen.Select(_name, Gen.Bool, Gen.Int[3, 12], _name.Array[1, 2],
            static (n, own, m, from) => (CureStep)new AntennaStep(n, own, m, [.. from.Select(static f => (f, 40.0))])),
        Gen.Select(_name, Gen.Int[1, 10], static (n, db) => (CureStep)new PowerStep(n, db)),
        Gen.Select(Gen.Long[145_000_000, 146_000_000], static f => (CureStep)new ChannelStep(f, f - 145_050_000)),
        Gen.Select(_name, Gen.Bool, static (n, circuit) => (CureStep)new FileFilterStep(n, n, circuit, ChainPlace.AtReceiver)),
        Gen.Select(Gen.Int[1, 5], Gen.OneOf(150.0, 300, 800, 2500), Gen.OneOf(0.0, 0.5),
            static (n, q, ripple) => (CureStep)new UsualFilterStep(
                new UsualBandPass(n, q, 145_050_000, 1.5, 12_500, ripple), ChainPlace.BeforeAmplifier)),
        Gen.Select(_name.Array[1, 2], static against => (CureStep)new UsualFilterStep(
            new UsualTrap([.. against.Select(static (_, i) => 150_000_000L + i)], 145_050_000, against), ChainPlace.AtReceiver)));

    // At the digits' edges too: what rounds to nothing carries no minus.
    private static readonly Gen<double> _db = Gen.OneOf<double>(
        Gen.OneOf(0.0, -0.0, -1e-9, 1e-9, -0.04, 0.049, -0.05, 0.05), Gen.Double[-20, 40]);

    private static readonly Gen<CureAnswer> _answer =
        from study in RandomStudies.Study
        from receivers in Cured(study.Receivers[0]).Array[study.Receivers.Count]
        select new CureAnswer(
            null!, study, null,
            [.. receivers.Select((r, i) => r with { Before = study.Receivers[i], Index = i, Needs = Needs(study, i) })]);

    [Fact]
    public void Text_of_any_ways_is_sound_and_its_counts_agree() => _answer.Sample(static answer =>
    {
        using StringWriter text = new();
        CureWriter.WriteText(answer, text, TextInk.None);

        // Counts agree in the sentences; in a table a cell's lines stand beside another's.
        Assert.All(text.ToString().Split('\n'), WrittenText.Figures);
        Assert.DoesNotContain(text.ToString(), static c => c != '\n' && (char.IsControl(c) || c is >= '\u202a' and <= '\u202e'));
        Assert.All(answer.Receivers, static r => WrittenText.Agree(CureWords.Conclusion(r, Drawing.Words.Typography.Plain)));
        Assert.All(answer.Receivers.SelectMany(static r => CureWriter.Rest(r, 8)), WrittenText.Agree);
    }, iter: 40);

    [Fact]
    public void Csv_and_Json_of_any_ways_hold_the_same_rows() => _answer.Sample(static answer =>
    {
        using StringWriter csv = new();
        CureWriter.WriteCsv(answer, csv);
        using MemoryStream stream = new();
        CureWriter.WriteJson(answer, stream);
        List<List<string>> rows = WrittenText.Csv(csv.ToString());
        (JsonElement Receiver, JsonElement Cure)[] cures =
        [
            .. JsonDocument.Parse(stream.ToArray()).RootElement.GetProperty("receivers").EnumerateArray()
                .SelectMany(static r => r.GetProperty("cures").EnumerateArray(), static (r, c) => (r, c)),
        ];
        Assert.Equal(answer.Receivers.Sum(static r => r.Cures.Count), rows.Count - 1);
        Assert.Equal(rows.Count - 1, cures.Length);
        foreach ((List<string> row, (JsonElement receiver, JsonElement cure)) in rows.Skip(1).Zip(cures))
        {
            Assert.Equal(rows[0].Count, row.Count);
            Assert.All(row, WrittenText.NoFormula);
            Assert.DoesNotContain("-0", row);
            string[] counts = [row[1], row[5], row[6], row[7]];
            Assert.Equal(Numbers(cure, "rank", "harmful_left", "marginal_left", "other_harmful_left"), counts);
            foreach ((string key, string cell) in (ReadOnlySpan<(string, string)>)
                [("worst_over_noise_db", row[8]), ("wanted_loss_db", row[9]), ("quiet_chance", row[10]), ("cures_heard", row[11])])
            {
                JsonElement value = cure.GetProperty(key);
                Assert.Equal(value.ValueKind == JsonValueKind.Null, cell.Length == 0);
                Assert.True(
                    cell.Length == 0 || double.Parse(cell, CultureInfo.InvariantCulture).Equals(value.GetDouble()), $"{cell} {value}");
            }

            Assert.Equal(cure.GetProperty("effort").GetString(), row[4]);
            Assert.True(receiver.GetProperty("harmful").GetInt32() >= 0);
        }
    }, iter: 60);

    /// <summary>What is needed is never rounded down, and by less than a tenth up.</summary>
    [Fact]
    public void Needs_as_printed_are_enough() => Gen.Double[0.001, 90].Sample(static db =>
    {
        double printed = double.Parse(Figures.AtLeastDb(db), CultureInfo.InvariantCulture);
        Assert.InRange(printed, db - 1e-6, db + 0.1);
    });

    [Theory]
    [InlineData(null, "not known")]
    [InlineData(0.0, "<1")]
    [InlineData(0.0099, "<1")]
    [InlineData(0.01, "1")]
    [InlineData(0.5, "50")]
    [InlineData(0.9899, "99")]
    [InlineData(1.0, ">99")]
    public void Chance_claims_neither_never_nor_always(double? chance, string expected) => Assert.Equal(expected, CureWriter.Bare(chance));

    /// <summary>A receiver with one way of each number of the counts beneath the list.</summary>
    [Theory]
    [InlineData(1, "1 way was put into the site and studied: 1 is beaten by one of these in everything, 1 does not help.")]
    [InlineData(12, "12 ways were put into the site and studied: 12 are beaten by one of these in everything, 12 do not help.")]
    public void Rest_counts_one_and_several(int count, string expected) =>
        Assert.Contains(expected, CureWriter.Rest(Alone(1) with { Tried = count, Dominated = count, Useless = count }, 8));

    [Theory]
    [InlineData(8, null)]
    [InlineData(9, "1 more way is worse in some respect; --format csv lists it.")]
    [InlineData(11, "3 more ways are worse in some respect; --format csv lists them.")]
    public void Rest_names_what_is_not_shown(int ways, string? expected)
    {
        string first = CureWriter.Rest(Alone(ways), 8).First();
        Assert.Equal(expected is not null, first == expected);
        Assert.Equal(expected is not null, first.Contains("more", StringComparison.Ordinal));
    }

    private static CuredReceiver Alone(int ways)
    {
        Cure one = new()
        {
            Steps = [new PadStep(3, ChainPlace.AtReceiver)],
            Harmful = 0,
            Marginal = 0,
            Unknown = 0,
            OtherHarmful = 0,
            WorstOverNoiseDb = null,
            SumOverNoiseDb = null,
            WantedLossDb = 3,
            Left = [],
            QuietChance = null,
            CuresHeard = null,
            Text = "",
            Files = new Dictionary<string, string>(),
        };
        return new CuredReceiver
        {
            Before = DemoStudy.WithoutFilter().Receivers[0],
            Index = 0,
            Needs = new AttenuationNeeds([], []),
            Cures = [.. Enumerable.Repeat(one, ways)],
            Tried = 20,
            Dominated = 5,
            Useless = 6,
            Combined = false,
            MadeElsewhere = [],
        };
    }

    private static Gen<CuredReceiver> Cured(ReceiverFindings before) =>
        from steps in _step.Array[1, 3].Array[0, 11]
        from counts in Gen.Select(Gen.Int[0, 3], Gen.Int[0, 3], Gen.Int[0, 2], Gen.Int[0, 2]).Array[steps.Length]
        from levels in Gen.Select(_db.Nullable(0.2), _db, Gen.Double[0, 1].Nullable(0.3)).Array[steps.Length]
        from heard in Gen.Double[0, 1].Nullable(0.5)
        from sums in Gen.Select(Gen.Int[1, 1400], Gen.Int[0, 3], Gen.Int[0, 3], Gen.Bool)
        select new CuredReceiver
        {
            Before = before,
            Index = 0,
            Needs = new AttenuationNeeds([], []),
            Cures =
            [
                .. steps.Select((s, i) => new Cure
                {
                    Steps = s,
                    Harmful = counts[i].Item1,
                    Marginal = counts[i].Item2,
                    Unknown = counts[i].Item3,
                    OtherHarmful = counts[i].Item4,
                    WorstOverNoiseDb = levels[i].Item1,
                    SumOverNoiseDb = levels[i].Item1,
                    WantedLossDb = levels[i].Item2,
                    Left = [.. before.Products.Where(static p => p.Verdict == Verdict.Harmful).Take(counts[i].Item1)],
                    QuietChance = levels[i].Item3,
                    CuresHeard = heard,
                    Text = "",
                    Files = new Dictionary<string, string>(),
                }).OrderBy(static c => c.Harmful),
            ],
            Tried = sums.Item1,
            Dominated = sums.Item2,
            Useless = sums.Item3,
            Combined = sums.Item4,
            MadeElsewhere = [.. before.Products.Where(static p => p.Mechanism == Mechanism.Transmitter && p.Verdict == Verdict.Harmful)],
        };

    private static AttenuationNeeds Needs(StudyResult study, int receiver) => AttenuationNeeds.Of(study.Receivers[receiver], 0);

    private static string[] Numbers(JsonElement of, params ReadOnlySpan<string> keys)
    {
        string[] all = new string[keys.Length];
        for (int i = 0; i < all.Length; i++)
        {
            all[i] = of.GetProperty(keys[i]).GetRawText();
        }

        return all;
    }
}
