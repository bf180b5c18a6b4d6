using System.Globalization;
using System.Text.Json;
using Spurless.Drawing.Words;
using Spurless.Reports.Text;
using Spurless.Sites.Cures;
using Spurless.Sites.Studies;
using static Spurless.Reports.Text.TextParagraphs;

namespace Spurless.Reports.Cures;

/// <summary>
/// Writes ways out: the conclusion and tables, JSON of the format <c>spurless-cure/1</c>, or CSV, a row a way.
/// </summary>
public static class CureWriter
{
    /// <summary>The head of the CSV.</summary>
    public const string CsvHead = "receiver,rank,what,who,effort,harmful_left,marginal_left,other_harmful_left,worst_over_noise_db,"
        + "wanted_loss_db,quiet_chance,cures_heard,cannot_cure";

    private const int Shown = 8;
    private const int Reasons = 3;
    private static readonly Typography Signs = Typography.Plain;

    /// <summary>Writes every receiver: the conclusion, the ways, and what a filter must do.</summary>
    public static void WriteText(CureAnswer answer, TextWriter to, TextInk ink)
    {
        ArgumentNullException.ThrowIfNull(answer);
        ArgumentNullException.ThrowIfNull(to);
        for (int i = 0; i < answer.Receivers.Count; i++)
        {
            CuredReceiver cured = answer.Receivers[i];
            to.Write(i > 0 ? "\n" : "");
            Paragraph(to, $"{cured.Before.Name}, {Figures.MegahertzExact(cured.Before.FrequencyHz)} MHz", ink, TextTone.Strong);
            to.Write('\n');
            Paragraph(to, CureWords.Conclusion(cured, Signs), ink, TextTone.Plain);
            if (cured.Cures.Count > 0)
            {
                Ways(cured, to, ink);
            }

            if (cured.Needs.Carriers.Count > 0)
            {
                Needs(cured, to, ink);
            }
        }

        if (answer.Receivers.Any(static r => r.Cures.Count > 0))
        {
            to.Write('\n');
            foreach (string caution in Cautions)
            {
                Paragraph(to, caution, ink, TextTone.Faint);
            }
        }
    }

    /// <summary>The best ways of a receiver, and the one chosen, within a study's text.</summary>
    /// <param name="cured">The list.</param>
    /// <param name="chosen">Rank of the one chosen; null for none.</param>
    /// <param name="to">Where to.</param>
    /// <param name="ink">With or without colour.</param>
    internal static void WriteSection(CuredReceiver cured, int? chosen, TextWriter to, TextInk ink)
    {
        to.Write('\n');
        Paragraph(to, "Ways out", ink, TextTone.Strong);
        Paragraph(to, CureWords.AboveList(cured, Signs), ink, TextTone.Plain);
        if (chosen is { } rank)
        {
            Paragraph(to, $"Chosen: way {Whole(rank)}. {CureWords.Chosen(cured.Cures[rank - 1], Signs)}", ink, TextTone.Plain);
        }

        if (cured.Cures.Count > 0)
        {
            to.Write('\n');
            Table(cured, ReportedWays.Ranks(cured, chosen)).WriteTo(to, ink);
            if (cured.Cures.Count > ReportedWays.Shown)
            {
                Paragraph(
                    to, $"The first {ReportedWays.Shown} of {Figures.Count(cured.Cures.Count, Signs)}; 'cure' lists them.", ink,
                    TextTone.Faint);
            }
        }
    }

    /// <summary>What to heed before anything of it is done.</summary>
    public static IReadOnlyList<string> Cautions { get; } =
    [
        "Never transmit through a receive filter, trap or pad: let a bypass carry the transmission. A receive filter stands in the receive "
            + "path only.",
        "Work on another's transmitter, antenna or isolator is theirs to do or to allow; masts are for trained people, with transmitters "
            + "near the work off or turned down (RF burns).",
        "Another channel is for those to give who coordinate and license, not for this list.",
        "Filters without a file of yours are usual kinds, computed: design yours (design --from-site), sweep it, and study again.",
    ];

    /// <summary>Writes the result as JSON, in UTF-8 with a final line feed.</summary>
    public static void WriteJson(CureAnswer answer, Stream to)
    {
        ArgumentNullException.ThrowIfNull(answer);
        JsonText.Write(to, json =>
        {
            json.WriteString("format", "spurless-cure/1");
            json.WriteString("site", answer.Study.Site);
            JsonText.Objects(json, "receivers", answer.Receivers, cured => Receiver(json, cured));
        });
    }

    /// <summary>Writes the result as CSV, a row a way.</summary>
    public static void WriteCsv(CureAnswer answer, TextWriter to)
    {
        ArgumentNullException.ThrowIfNull(answer);
        ArgumentNullException.ThrowIfNull(to);
        to.Write(CsvHead + "\n");
        foreach (CuredReceiver cured in answer.Receivers)
        {
            for (int i = 0; i < cured.Cures.Count; i++)
            {
                Cure cure = cured.Cures[i];
                string[] cells =
                [
                    CsvQuoting.Quote(cured.Before.Name), Whole(i + 1), CsvQuoting.Quote(CureWords.Steps(cure)),
                    CsvQuoting.Quote(CureWords.Who(cure)), Token(cure.Effort), Whole(cure.Harmful), Whole(cure.Marginal),
                    Whole(cure.OtherHarmful), Cell(cure.WorstOverNoiseDb), Cell(cure.WantedLossDb), Chance(cure.QuietChance),
                    Chance(cure.CuresHeard),
                    CsvQuoting.Quote(string.Join("; ", cure.Left.Select(static p => StudyWords.Mixture(p, Signs)))),
                ];
                to.Write(string.Join(',', cells) + "\n");
            }
        }
    }

    private static void Ways(CuredReceiver cured, TextWriter to, TextInk ink)
    {
        to.Write('\n');
        Table(cured, Enumerable.Range(1, Math.Min(Shown, cured.Cures.Count))).WriteTo(to, ink);
        foreach (string line in Rest(cured, Shown))
        {
            Paragraph(to, line, ink, TextTone.Faint);
        }
    }

    private static TextTable Table(CuredReceiver cured, IEnumerable<int> ranks)
    {
        bool observed = cured.Cures.Any(static c => c.CuresHeard is not null);
        TextTable table = new(
            new("", TextSide.Right), new TextColumn("what would be done", Wraps: true), new("harmful\nleft", TextSide.Right),
            new("worst,\ndB", TextSide.Right), new("loss,\ndB", TextSide.Right),
            new(observed ? "cures what\nis heard, %" : "quiet,\n%", TextSide.Right));
        foreach (int rank in ranks)
        {
            Cure cure = cured.Cures[rank - 1];
            table.Add(
                Whole(rank), StudyWords.Capital(CureWords.Steps(cure)), Whole(cure.Harmful),
                cure.WorstOverNoiseDb is { } worst ? Figures.SignedDb(worst, Signs) : "none",
                Figures.Db(cure.WantedLossDb, Signs), Bare(observed ? cure.CuresHeard : cure.QuietChance));
            table.Note(CureWords.WhoAndWhat(cure));
            if (cure.Steps[0] is ToneSquelchStep)
            {
                table.Note(ToneSquelch(cured.Before));
            }
            else
            {
                foreach (ProductFinding left in cure.Left.Take(rank == 1 ? Reasons : 1))
                {
                    table.Note("leaves " + CureWords.WhyLeft(left, Signs), TextTone.Faint);
                }
            }
        }

        return table;
    }

    /// <summary>What the list does not show, and how it was made.</summary>
    public static IEnumerable<string> Rest(CuredReceiver cured, int shown)
    {
        if (cured.Cures.Count > shown)
        {
            int more = cured.Cures.Count - shown;
            yield return more == 1 ? "1 more way is worse in some respect; --format csv lists it."
                : $"{Figures.Count(more, Signs)} more ways are worse in some respect; --format csv lists them.";
        }

        yield return $"{Figures.Count(cured.Tried, Signs)} {(cured.Tried == 1 ? "way was" : "ways were")} put into the site and studied"
            + (cured.Combined ? ", pairs and triples among them, as none alone ends it" : "")
            + $": {Figures.Count(cured.Dominated, Signs)} {(cured.Dominated == 1 ? "is" : "are")} beaten by one of these in everything, "
            + $"{Figures.Count(cured.Useless, Signs)} {(cured.Useless == 1 ? "does" : "do")} not help.";
        yield return "Loss: of a wanted signal; range by 40 lg d. Quiet: the chance, by the levels' uncertainty, that none of the listed "
            + "mixtures is harmful then.";
    }

    /// <summary>What a tone squelch does, and what it does not.</summary>
    public static string ToneSquelch(ReceiverFindings before)
    {
        ProductFinding worst = before.Products.First(static p => p.Verdict == Verdict.Harmful);
        return $"keeps the repeater silent, does not make it hear: the worst mixture still costs "
            + $"{Figures.Db(worst.Effects?.NoiseRiseDb ?? 0, Signs)} dB of sensitivity "
            + (worst.OnTogether >= 1 ? "whenever its emitters are on" : $"{CureWords.Percent(worst.OnTogether)} of the time");
    }

    private static void Needs(CuredReceiver cured, TextWriter to, TextInk ink)
    {
        to.Write('\n');
        TextTable table = new(
            new TextColumn("what a filter in front must take more", Wraps: true), new("MHz", TextSide.Right),
            new("least,\ndB", TextSide.Right), new("and 6 dB of\nmargin", TextSide.Right));
        for (int i = 0; i < cured.Needs.Carriers.Count; i++)
        {
            CarrierAttenuation need = cured.Needs.Carriers[i];
            table.Add(
                need.Emitter, Figures.MegahertzExact(need.FrequencyHz), Figures.AtLeastDb(need.AttenuationDb),
                Figures.AtLeastDb(cured.Needs.WithMargin[i].AttenuationDb));
        }

        table.WriteTo(to, ink);
        Paragraph(
            to, "With just these, nothing made in the receiver is harmful; spread as three tuned circuits find it easiest.", ink,
            TextTone.Faint);
    }

    private static void Receiver(Utf8JsonWriter json, CuredReceiver cured)
    {
        json.WriteString("name", cured.Before.Name);
        json.WriteString("says", CureWords.Conclusion(cured, Signs));
        json.WriteNumber("harmful", cured.Before.Harmful);
        json.WriteNumber("marginal", cured.Before.Marginal);
        Needs(json, "needs", cured.Needs.Carriers);
        Needs(json, "needs_with_margin", cured.Needs.WithMargin);
        json.WriteNumber("tried", cured.Tried);
        json.WriteNumber("dominated", cured.Dominated);
        json.WriteNumber("useless", cured.Useless);
        int rank = 0;
        JsonText.Objects(json, "cures", cured.Cures, cure =>
        {
            json.WriteNumber("rank", ++rank);
            json.WriteString("what", CureWords.Steps(cure));
            JsonText.Strings(json, "steps", cure.Steps.Select(CureWords.Step));
            json.WriteNumber("harmful_left", cure.Harmful);
            json.WriteNumber("marginal_left", cure.Marginal);
            json.WriteNumber("unknown_left", cure.Unknown);
            json.WriteNumber("other_harmful_left", cure.OtherHarmful);
            JsonText.Decibels(json, "worst_over_noise_db", cure.WorstOverNoiseDb);
            JsonText.Decibels(json, "sum_over_noise_db", cure.SumOverNoiseDb);
            JsonText.Decibels(json, "wanted_loss_db", cure.WantedLossDb);
            JsonText.Number(json, "range_share", Math.Round(cure.RangeShare, 6));
            json.WriteString("who", CureWords.Who(cure));
            json.WriteString("effort", Token(cure.Effort));
            JsonText.Number(json, "quiet_chance", Rounded(cure.QuietChance));
            JsonText.Number(json, "cures_heard", Rounded(cure.CuresHeard));
            json.WriteBoolean("transmit_through", !cure.NotForTransmitting);
            json.WriteStartArray("cannot_cure");
            foreach (ProductFinding left in cure.Left)
            {
                JsonText.Terms(json, left.Terms);
            }

            json.WriteEndArray();
            JsonText.Strings(json, "why", cure.Left.Select(static p => CureWords.WhyLeft(p, Signs)));
            JsonText.Strings(json, "files", cure.Files.Keys.Order(StringComparer.Ordinal));
        });
    }

    private static void Needs(Utf8JsonWriter json, string key, IReadOnlyList<CarrierAttenuation> needs) =>
        JsonText.Objects(json, key, needs, need =>
        {
            json.WriteString("emitter", need.Emitter);
            json.WriteNumber("frequency_hz", need.FrequencyHz);
            JsonText.Decibels(json, "attenuation_db", need.AttenuationDb);
        });

    private static string Token(CureEffort effort) => effort switch
    {
        CureEffort.Minutes => "minutes",
        CureEffort.Evening => "evening",
        CureEffort.Purchase => "purchase",
        _ => "somebody else",
    };

    private static string Whole(int value) => value.ToString(CultureInfo.InvariantCulture);

    // The digits of the JSON, less noughts at the end: two formats of .NET round a half at the sixth place differently.
    private static string Cell(double? value) => CsvFigure.Of(value).TrimEnd('0').TrimEnd('.');

    // Rounded once for both formats: writing with six decimals rounds a half the other way than Math.Round.
    private static double? Rounded(double? chance) => chance is { } known ? Math.Round(known, 6) : null;

    private static string Chance(double? chance) => Rounded(chance) is { } known ? FixedText.Of(known, "0.######") : "";

    /// <summary>A probability in bare percent that claims neither never nor always.</summary>
    public static string Bare(double? chance) => chance switch
    {
        null => "not known",
        < 0.01 => "<1",
        > 0.99 => ">99",
        { } p => (100 * p).ToString("0", CultureInfo.InvariantCulture),
    };
}
