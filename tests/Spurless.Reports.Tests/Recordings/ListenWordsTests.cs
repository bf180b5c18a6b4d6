using System.Globalization;
using System.Text.Json;
using CsCheck;
using Spurless.Reports.Recordings;
using Spurless.Reports.Tests.Text;
using Spurless.Reports.Text;
using Spurless.Signals.Listening;
using Spurless.Signals.Recognition;
using Spurless.Sites.Recordings;

namespace Spurless.Reports.Tests.Recordings;

/// <summary>What was heard, in words and in every format.</summary>
public sealed class ListenWordsTests
{
    private static readonly Gen<Finding> _finding =
        from kind in Gen.Enum<SignalKind>()
        from start in Gen.Double[0, 4_000]
        from length in Gen.Double[0.01, 100]
        from confidence in Gen.Double[0, 1]
        from rate in Gen.Double[10, 9600]
        from units in Gen.Int[0, 3]
        from lines in Gen.Int[1, 3]
        from inverted in Gen.Bool.Nullable(0.3)
        from modulation in Gen.Enum<Modulation>().Nullable(0.3)
        select new Finding
        {
            Kind = kind,
            StartS = start,
            EndS = start + length,
            Confidence = confidence,
            SymbolRateBd = rate,
            ToneHz = rate,
            Code = kind == SignalKind.Ctcss ? "88.5" : "023",
            UnitsChecked = units,
            UnitsGood = units,
            Inverted = inverted,
            Evidence = new Evidence
            {
                SyncWords = lines,
                Flags = lines,
                Lines = lines,
                DriftHz = 2 * rate,
                QuietingDb = 12,
                WordsPerMinute = 18,
                VoicedShare = 0.4,
                PitchLowHz = 90,
                PitchHighHz = 210,
                ImpulsesPerS = 50,
                Modulation = modulation,
                DeviationHz = 2_400,
            },
        };

    private static readonly Gen<ListenAnswer> _answer =
        from kinds in _finding.Array[1, 3].Array[0, 4]
        from band in Gen.Bool
        from duration in Gen.Double[0.5, 9_000]
        from name in Gen.OneOf("a.wav", "/some folder/=b.wav", "line\nbreak.wav")
        let heard = new Heard(
            duration,
            null,
            band,
            145e6,
            146e6,
            [
                .. kinds.Select((k, i) => new Transmission
                {
                    StartS = k[0].StartS, EndS = k[0].EndS, CentreHz = band ? 145.1e6 + i : null, Kinds = k,
                    LevelDb = band ? -30.123 : null,
                }),
            ],
            null)
        select new ListenAnswer(name, heard, [], null, HeardLogs.Make(heard, null, null));

    [Theory]
    [InlineData(0, "0:00.00")]
    [InlineData(59.994, "0:59.99")]
    [InlineData(59.996, "1:00.00")]
    [InlineData(61.5, "1:01.50")]
    [InlineData(119.999, "2:00.00")]
    [InlineData(3599.99, "59:59.99")]
    [InlineData(3599.996, "1:00:00.0")]
    [InlineData(3600, "1:00:00.0")]
    [InlineData(3661.25, "1:01:01.3")]
    [InlineData(7199.97, "2:00:00.0")]
    public void Moment_is_a_clock_that_never_shows_sixty(double seconds, string shown) => Assert.Equal(shown, ListenWords.Moment(seconds));

    [Fact]
    public void Moment_of_any_second_reads_back_to_its_last_digit() => Gen.Double[0, 100_000].Sample(static s =>
    {
        double[] parts = [.. ListenWords.Moment(s).Split(':').Select(static p => double.Parse(p, CultureInfo.InvariantCulture))];
        Assert.All(parts[1..], static p => Assert.InRange(p, 0, 59.99));
        double read = parts.Aggregate(0.0, static (sum, p) => (60 * sum) + p);
        Assert.Equal(s, read, s >= 3_599 ? 0.0501 : 0.00501);
    });

    /// <summary>
    /// Where the recording says when it was made, by the clock in UTC: a tenth of a second, rounded before it is taken apart.
    /// </summary>
    [Theory]
    [InlineData(0, "20:15:00.0")]
    [InlineData(0.949, "20:15:00.9")]
    [InlineData(59.96, "20:16:00.0")]
    [InlineData(3 * 3_600 + 45 * 60, "00:00:00.0")]
    public void Moment_of_a_recording_with_a_date_is_by_the_clock(double seconds, string shown)
    {
        Heard heard = new(20_000, new DateTimeOffset(2031, 3, 11, 22, 15, 0, TimeSpan.FromHours(2)), false, 0, 4_800, [], null);
        Assert.Equal(shown, ListenWords.Moment(heard, seconds));
        Assert.Equal(ListenWords.Moment(seconds), ListenWords.Moment(heard with { Start = null }, seconds));
    }

    [Theory]
    [InlineData(0.9, "480 symbols laid over each other; the eye is open: the levels stand apart.")]
    [InlineData(0.4, "480 symbols laid over each other; the eye is half closed by noise or by what stands beside it.")]
    [InlineData(0, "480 symbols laid over each other; the eye is closed by noise or by what stands beside it.")]
    public void Trace_of_an_eye_says_how_open_it_is(double openness, string says)
    {
        Finding eye = _finding.Single() with { Trace = new Trace { Eye = new EyePicture(1, 1, [255], 480, 1 / 1_200.0, openness) } };
        Assert.Equal(("Eye", says), (ListenWords.TraceTitle(eye), ListenWords.TraceSays(eye)));
    }

    [Fact]
    public void Trace_of_a_tone_says_where_it_lay()
    {
        Finding tone = _finding.Single() with { Trace = new Trace { Tone = [new(1, 88.4, -20), new(2, null, -60), new(3, 88.6, -20)] } };
        Assert.Equal("Its frequency lay between 88.4 and 88.6 Hz.", ListenWords.TraceSays(tone));
        Finding keyed = tone with { Trace = new Trace { Tone = [new(1, null, -20), new(2, null, -60)] } };
        Assert.Equal("Level of the tone", ListenWords.TraceTitle(keyed));
        Assert.Equal("", ListenWords.TraceSays(tone with { Trace = null }));
    }

    [Theory]
    [InlineData(0, "<1")]
    [InlineData(0.0099, "<1")]
    [InlineData(0.5, "50")]
    [InlineData(0.9901, ">99")]
    [InlineData(1, ">99")]
    public void Percent_claims_neither_nothing_nor_all(double share, string said) => Assert.Equal(said, ListenWords.Percent(share));

    [Fact]
    public void Every_kind_has_a_token_and_a_name_of_its_own()
    {
        SignalKind[] all = Enum.GetValues<SignalKind>();
        Assert.Equal(all.Length, all.Select(ListenWords.Token).Distinct().Count());
        Assert.All(all, static k => Assert.Matches("^[a-z0-9_]+$", ListenWords.Token(k)));
        Finding one = _finding.Single();
        Assert.Equal(
            all.Length,
            all.Select(k => ListenWords.Name(one with { Kind = k, Evidence = one.Evidence with { GatedByHz = null } })).Distinct().Count());
    }

    [Fact]
    public void WriteText_of_anything_heard_has_no_broken_figure_and_ends_with_the_caution() => _answer.Sample(static answer =>
    {
        using StringWriter text = new();
        ListenWriter.WriteText(answer, text, TextInk.None);
        WrittenText.Sound(text.ToString());
        Assert.EndsWith(ListenWords.Caution, text.ToString().TrimEnd().Replace('\n', ' '), StringComparison.Ordinal);
        foreach (Finding f in answer.Heard.Transmissions.SelectMany(static t => t.Kinds))
        {
            WrittenText.Agree(ListenWords.Because(f));
        }
    });

    [Fact]
    public void Json_and_csv_list_the_same_kinds_and_the_log_one_line_a_moment() => _answer.Sample(static answer =>
    {
        using MemoryStream stream = new();
        ListenWriter.WriteJson(answer, stream);
        using StringWriter csv = new(), log = new();
        ListenWriter.WriteCsv(answer, csv);
        ListenWriter.WriteLog(answer, log);
        List<List<string>> rows = WrittenText.Csv(csv.ToString());
        JsonElement[] kinds = [.. JsonDocument.Parse(stream.ToArray()).RootElement.GetProperty("transmissions").EnumerateArray()
            .SelectMany(static t => t.GetProperty("kinds").EnumerateArray())];
        Assert.Equal(kinds.Select(static k => k.GetProperty("kind").GetString()!), rows.Skip(1).Select(static r => r[3]));
        Assert.All(rows, r => Assert.Equal(rows[0].Count, r.Count));
        Assert.All(rows.Skip(1).SelectMany(static r => r), WrittenText.NoFormula);

        // Two comment lines (the time is not known), the head, and the rows: a file's name does not add one.
        string[] lines = log.ToString().TrimEnd('\n').Split('\n');
        Assert.Equal(3 + answer.Log.Rows.Count, lines.Length);
        Assert.All(lines[..2], static l => Assert.StartsWith("# ", l, StringComparison.Ordinal));
        Assert.Equal(lines[3..].Order(StringComparer.Ordinal), lines[3..]);
    });

    [Fact]
    public void Answer_of_nothing_and_of_several_says_how_many_and_how_long() => _answer.Sample(static answer =>
    {
        string says = ListenWords.Answer(answer.Heard);
        WrittenText.Figures(says);
        int count = answer.Heard.Transmissions.Count;
        Assert.StartsWith(
            count == 0 ? "Nothing but noise or silence in " : count == 1 ? "One transmission in " : $"{count} transmissions in ",
            says,
            StringComparison.Ordinal);
        Assert.EndsWith(".", says, StringComparison.Ordinal);
    });
}
