using System.Globalization;
using System.Text.Json;
using Spurless.Drawing.Words;
using Spurless.Mixing.Evidence;
using Spurless.Reports.Text;
using Spurless.Sites.Locating;
using Spurless.Sites.Studies;
using static Spurless.Reports.Text.TextParagraphs;

namespace Spurless.Reports.Locating;

/// <summary>
/// Writes what evidence says: the answer and tables, JSON of the format <c>spurless-locate/1</c>, or CSV, a row a hypothesis.
/// </summary>
public static class LocateWriter
{
    /// <summary>The head of the CSV.</summary>
    public const string CsvHead = "receiver,mechanism,made_in,mixture,emitters,prior,probability,tied_with,because";

    private const int Shown = 8;
    private const double LeastShown = 0.005;

    // Reasons are told of so many of the likeliest; a list of thousands needs none for its tail.
    private const int Reasoned = 200;

    private static readonly Typography Signs = Typography.Plain;

    /// <summary>Writes the answer of every receiver, where it is made, what it is and why, and what to look at next.</summary>
    public static void WriteText(LocateAnswer answer, TextWriter to, TextInk ink)
    {
        ArgumentNullException.ThrowIfNull(answer);
        ArgumentNullException.ThrowIfNull(to);
        for (int i = 0; i < answer.Receivers.Count; i++)
        {
            LocatedReceiver located = answer.Receivers[i];
            if (i > 0)
            {
                to.Write('\n');
            }

            Paragraph(to, $"{located.Findings.Name}, {Figures.MegahertzExact(located.Findings.FrequencyHz)} MHz", ink, TextTone.Strong);
            to.Write('\n');
            Paragraph(to, LocateWords.Answer(located, Signs), ink, TextTone.Plain);
            foreach (string misfit in LocateWords.Misfits(located, Signs))
            {
                Paragraph(to, "- " + misfit, ink, TextTone.Plain, hanging: 2);
            }

            if (located.Products.Count > 0)
            {
                WriteTables(located, to, ink);
            }
        }
    }

    /// <summary>Writes the result as JSON, in UTF-8 with a final line feed.</summary>
    public static void WriteJson(LocateAnswer answer, Stream to)
    {
        ArgumentNullException.ThrowIfNull(answer);
        JsonText.Write(to, json =>
        {
            json.WriteString("format", "spurless-locate/1");
            json.WriteString("site", answer.Study.Site);
            json.WriteString("prior", answer.Question.Prior == PriorKind.Level ? "level" : "equal");
            json.WriteStartArray("receivers");
            foreach (LocatedReceiver located in answer.Receivers)
            {
                Receiver(json, located);
            }

            json.WriteEndArray();
        });
    }

    /// <summary>Writes the result as CSV, a row a hypothesis.</summary>
    public static void WriteCsv(LocateAnswer answer, TextWriter to)
    {
        ArgumentNullException.ThrowIfNull(answer);
        ArgumentNullException.ThrowIfNull(to);
        to.Write(CsvHead + "\n");
        foreach (LocatedReceiver located in answer.Receivers)
        {
            for (int rank = 0; rank < located.Ranked.Count; rank++)
            {
                int h = located.Ranked[rank];
                Hypothesis hypothesis = located.Weighed.Hypotheses[h];
                ProductFinding? product = hypothesis.Product < 0 ? null : located.Products[hypothesis.Product];
                string[] cells =
                [
                    CsvQuoting.Quote(located.Findings.Name), Token(hypothesis.Place),
                    CsvQuoting.Quote(located.NameOf(hypothesis.Place, hypothesis.Index) ?? ""),
                    CsvQuoting.Quote(product is null ? "" : StudyWords.Mixture(product, Signs)),
                    CsvQuoting.Quote(product is null ? "" : string.Join("; ", product.Terms.Select(static t => t.Name))),
                    Cell(hypothesis.Prior), Cell(located.Weighed.Posterior[h]),
                    CsvQuoting.Quote(rank < Reasoned
                        ? string.Join("; ", LocateWords.TiedWith(located, h).Select(t => LocateWords.Hypothesis(located, t, Signs)))
                        : ""),
                    CsvQuoting.Quote(rank < Reasoned ? string.Join("; ", LocateWords.Because(located, h, Signs)) : ""),
                ];
                to.Write(string.Join(',', cells) + "\n");
            }
        }
    }

    /// <summary>A place of making as the formats write it.</summary>
    /// <param name="place">The kind of place.</param>
    public static string Token(MakingPlace place) => place switch
    {
        MakingPlace.Receiver => "receiver",
        MakingPlace.Transmitter => "transmitter",
        MakingPlace.Outside => "outside",
        _ => "other",
    };

    private static void WriteTables(LocatedReceiver located, TextWriter to, TextInk ink)
    {
        to.Write('\n');
        TextTable places = new(
            new TextColumn("where it is made", Wraps: true), new("before, %", TextSide.Right), new("now, %", TextSide.Right));
        foreach (PlaceShare place in located.Places)
        {
            places.Add(LocateWords.Place(place.Place, place.Name, located.Findings.Name), Bare(place.Prior), Bare(place.Probability));
        }

        places.WriteTo(to, ink);
        if (!located.HasEvidence)
        {
            return;
        }

        to.Write('\n');
        TextTable which = new(new TextColumn("what it is, and why", Wraps: true), new("now, %", TextSide.Right));
        int shown = 0;
        foreach (int h in located.Ranked)
        {
            if (shown == Shown || (shown > 2 && located.Weighed.Posterior[h] < LeastShown))
            {
                break;
            }

            shown++;
            string tied = LocateWords.TiedWith(located, h).Count > 0 ? " (tied: nothing observed tells it from others)" : "";
            which.Add(LocateWords.Hypothesis(located, h, Signs) + tied, Bare(located.Weighed.Posterior[h]));
            foreach (string reason in LocateWords.Because(located, h, Signs).Take(3))
            {
                which.Note(reason);
            }
        }

        which.WriteTo(to, ink);
        if (located.Ranked.Count - shown is > 0 and var more)
        {
            Paragraph(
                to, $"{Figures.Count(more, Signs)} more {(more == 1 ? "is" : "are")} weighed and less likely; --format csv lists them all.",
                ink, TextTone.Faint);
        }

        if (LocateWords.RuledOut(located, Signs) is { } ruledOut)
        {
            to.Write('\n');
            Paragraph(to, ruledOut, ink, TextTone.Plain);
        }

        if (located.ProductsLeftOut > 0)
        {
            Paragraph(
                to, $"{Figures.Count(located.ProductsLeftOut, Signs)} weaker "
                    + $"{(located.ProductsLeftOut == 1 ? "mixture was" : "mixtures were")} not weighed.",
                ink, TextTone.Faint);
        }

        if (located.Next.Count > 0)
        {
            WriteNext(located, to, ink);
        }
    }

    private static void WriteNext(LocatedReceiver located, TextWriter to, TextInk ink)
    {
        to.Write('\n');
        int[] leaders = WorksheetRow.Leaders(located);
        TextTable next = new(
        [
            new TextColumn("what to look at next", Wraps: true),
            .. leaders.Select(h => new TextColumn(WorksheetRow.Head(located, h), TextSide.Right, Wraps: true)),
            new("decides, %", TextSide.Right),
        ]);
        foreach (WorksheetRow row in WorksheetRow.Of(located, Signs))
        {
            next.Add([row.Do, .. row.Readings.Select(static r => new TextCell(r)), Bare(row.Decides)]);
        }

        next.WriteTo(to, ink);
        Paragraph(
            to, "Readings are falls in dB where nothing else is said"
                + (located.OverNoiseRead
                    ? "."
                    : $", from {Figures.Db(located.OverNoiseDb, Signs)} dB over noise (predicted: read it first)."),
            ink, TextTone.Faint);
        foreach (string caution in ObservationWords.Cautions(located.Next.Select(static n => n.Ask)))
        {
            Paragraph(to, caution, ink, TextTone.Faint);
        }
    }

    private static void Receiver(Utf8JsonWriter json, LocatedReceiver located)
    {
        json.WriteStartObject();
        json.WriteString("name", located.Findings.Name);
        json.WriteString("says", LocateWords.Answer(located, Signs));
        json.WriteStartArray("hypotheses");
        for (int rank = 0; rank < located.Ranked.Count; rank++)
        {
            Hypothesis(json, located, located.Ranked[rank], rank < Reasoned);
        }

        json.WriteEndArray();
        JsonText.Objects(json, "places", located.Places, place =>
        {
            json.WriteString("mechanism", Token(place.Place));
            json.WriteString("made_in", place.Name);
            JsonText.Number(json, "prior", Rounded(place.Prior));
            JsonText.Number(json, "probability", Rounded(place.Probability));
        });
        JsonText.Objects(json, "products", Enumerable.Range(0, located.Products.Count).OrderByDescending(located.Weighed.OfProduct), p =>
        {
            JsonText.TermsOf(json, located.Products[p].Terms);
            JsonText.Number(json, "probability", Rounded(located.Weighed.OfProduct(p)));
        });
        json.WriteStartArray("ruled_out");
        foreach ((int emitter, LogCounts counts) in located.RuledOut)
        {
            json.WriteStartObject();
            json.WriteString("emitter", located.Findings.Carriers[emitter].Emitter);
            json.WriteNumber("moments_on", counts.On);
            json.WriteNumber("heard", counts.OnHeard);
            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteNumber("products_left_out", located.ProductsLeftOut);
        JsonText.Strings(json, "contradictions", LocateWords.Misfits(located, Signs));
        JsonText.Decibels(json, "over_noise_db", located.OverNoiseDb);
        json.WriteBoolean("over_noise_read", located.OverNoiseRead);
        if (located.Next.Count > 0)
        {
            json.WritePropertyName("next_observation");
            Next(json, located, located.Next[0]);
        }
        else
        {
            json.WriteNull("next_observation");
        }

        json.WriteStartArray("next_observations");
        foreach (Advice advice in located.Next)
        {
            Next(json, located, advice);
        }

        json.WriteEndArray();
        json.WriteEndObject();
    }

    private static void Hypothesis(Utf8JsonWriter json, LocatedReceiver located, int h, bool reasoned)
    {
        Hypothesis hypothesis = located.Weighed.Hypotheses[h];
        json.WriteStartObject();
        Made(json, located, hypothesis);
        JsonText.Number(json, "prior", Rounded(hypothesis.Prior));
        JsonText.Number(json, "probability", Rounded(located.Weighed.Posterior[h]));
        JsonText.Strings(json, "because", reasoned ? LocateWords.Because(located, h, Signs) : []);
        JsonText.Objects(json, "tied_with", reasoned ? LocateWords.TiedWith(located, h) : [], tied =>
        {
            Made(json, located, located.Weighed.Hypotheses[tied]);
        });
        json.WriteEndObject();
    }

    private static void Next(Utf8JsonWriter json, LocatedReceiver located, Advice advice)
    {
        json.WriteStartObject();
        json.WriteString("text", LocateWordsCapital(ObservationWords.Do(located, advice.Ask, Signs)));
        json.WriteString("kind", advice.Ask switch
        {
            PadInLine => "attenuator_test",
            FilterInLine => "filter_test",
            EmitterDown => "emitter_reduced",
            OffsetReading => "offset",
            _ => "log",
        });
        JsonText.Number(json, "gain_bit", Rounded(advice.GainNats / Math.Log(2)));
        JsonText.Number(json, "decides", Rounded(advice.Decides));
        JsonText.Number(json, "decides_place", Rounded(advice.DecidesPlace));
        json.WriteStartArray("readings");
        foreach (int h in WorksheetRow.Leaders(located))
        {
            Hypothesis hypothesis = located.Weighed.Hypotheses[h];
            json.WriteStartObject();
            Made(json, located, hypothesis);
            switch (advice.Ask)
            {
                case MomentToWaitFor moment:
                    JsonText.Number(json, "chance_heard", Rounded(NextObservations.ChanceHeard(located.Weighed, moment, hypothesis)));
                    break;
                case OffsetReading offset:
                    Prediction hertz = located.Weighed.Case.Offset(offset, hypothesis);
                    JsonText.Number(json, "offset_hz", hertz.IsNormal ? Rounded(hertz.Mean) : null);
                    JsonText.Number(json, "sigma_hz", hertz.IsNormal ? Rounded(hertz.Sigma) : null);
                    break;
                case FallObservation fall:
                    Prediction db = located.Weighed.Case.Fall(fall, hypothesis);
                    JsonText.Number(json, "fall_db", db.IsNormal ? Rounded(db.Mean) : null);
                    JsonText.Number(json, "sigma_db", db.IsNormal ? Rounded(db.Sigma) : null);
                    break;
            }

            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteEndObject();
    }

    private static void Made(Utf8JsonWriter json, LocatedReceiver located, in Hypothesis hypothesis)
    {
        json.WriteString("mechanism", Token(hypothesis.Place));
        json.WriteString("made_in", located.NameOf(hypothesis.Place, hypothesis.Index));
        if (hypothesis.Product >= 0)
        {
            JsonText.TermsOf(json, located.Products[hypothesis.Product].Terms);
        }
    }

    /// <summary>A sentence with its first letter as a capital.</summary>
    internal static string LocateWordsCapital(string text) => text.Length == 0 ? text : char.ToUpperInvariant(text[0]) + text[1..];

    private static double Rounded(double value) => Math.Round(value, 9);

    private static string Cell(double value) => value.ToString("0.#########", CultureInfo.InvariantCulture);

    private static string Bare(double probability) => probability < 0.01 ? "<1" : probability > 0.99 ? ">99"
        : (100 * probability).ToString("0", CultureInfo.InvariantCulture);
}
