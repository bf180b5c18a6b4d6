using System.Globalization;
using System.Text.RegularExpressions;
using AngleSharp.Dom;
using Bunit;
using Spurless.Drawing.Words;
using Spurless.Mixing.Evidence;
using Spurless.Reports.Locating;
using Spurless.Reports.Tests.Text;
using Spurless.Reports.Tests.Whole;
using Spurless.Reports.Text;
using Spurless.Sites.Locating;

namespace Spurless.Reports.Tests.Locating;

/// <summary>The pictures and sentences of evidence on a small site: what is drawn is what is weighed, and counts agree.</summary>
public sealed partial class LocateFiguresTests
{
    private static LocatedReceiver Located => Answered.Locate.Value.Receivers.Single(static r => r.HasEvidence);

    /// <summary>A mixture of order n falls by n dB a dB into the noise: 10 lg (1 + 10^((S - n a)/10)) over it.</summary>
    [Fact]
    public void FallFigure_draws_each_order_by_its_law()
    {
        using BunitContext context = new();
        IRenderedComponent<FallFigure> figure = context.Render<FallFigure>(static p => p
            .Add(static f => f.Located, Located).Add(static f => f.Id, "f"));
        double top = Math.Clamp(10 * Math.Ceiling(Located.OverNoiseDb / 10), 10, 80);
        (double From, double To) x = (34, 358 - 12), y = (280 - 42, 280 - 42 - (280 - 66));
        IElement[] curves = [.. figure.FindAll("path.curve")];
        int[] slopes = [.. figure.FindAll("text.halo").Select(static t => int.Parse(t.TextContent, CultureInfo.InvariantCulture))];
        Assert.Equal(slopes.Length, curves.Length);
        Assert.Equal(slopes.Order(), slopes);
        foreach ((IElement curve, int slope) in curves.Zip(slopes))
        {
            double[] n = [.. Number().Matches(curve.GetAttribute("d")!).Select(static m =>
                double.Parse(m.Value, CultureInfo.InvariantCulture))];
            for (int i = 0; i < n.Length; i += 2)
            {
                double pad = 24 * (n[i] - x.From) / (x.To - x.From);
                double law = 10 * Math.Log10(1 + Math.Pow(10, (Located.OverNoiseDb - (slope * pad)) / 10));
                double drawn = top * (n[i + 1] - y.From) / (y.To - y.From);
                Assert.Equal(Math.Min(top, law), drawn, 0.05 + (slope * 0.05));
            }
        }

        // The pad that was read is a cross: 6 dB in line.
        string says = figure.Find("desc").TextContent;
        Assert.Contains(" dB behind 6 dB.", says, StringComparison.Ordinal);
        Assert.Single(figure.FindAll("path.meas"));
        WrittenText.Figures(says);
    }

    [Fact]
    public void PlacesFigure_says_the_same_shares_as_the_text()
    {
        using BunitContext context = new();
        IRenderedComponent<PlacesFigure> figure = context.Render<PlacesFigure>(static p => p
            .Add(static f => f.Located, Located).Add(static f => f.Id, "b"));
        string words = figure.Find("desc").TextContent;
        WrittenText.Figures(words);
        Assert.DoesNotContain("NaN", figure.Markup, StringComparison.Ordinal);
        foreach (PlaceShare place in Located.Places.Where(static p => p.Probability is > 0.01 and < 0.99))
        {
            Assert.Contains((100 * place.Probability).ToString("0", CultureInfo.InvariantCulture), figure.Markup, StringComparison.Ordinal);
        }
    }

    [Fact]
    public void Shares_of_places_products_and_hypotheses_are_each_one_whole()
    {
        foreach (LocatedReceiver located in Answered.Locate.Value.Receivers)
        {
            Assert.Equal(1, located.Places.Sum(static p => p.Probability), 1e-9);
            Assert.Equal(1, located.Places.Sum(static p => p.Prior), 1e-9);
            Assert.Equal(1, located.Weighed.Posterior.Sum(), 1e-9);
            double products = Enumerable.Range(0, located.Products.Count).Sum(located.Weighed.OfProduct);
            Assert.InRange(products, 0, 1 + 1e-9);

            // Likeliest first, and each place's leader is the likeliest of it.
            double[] ranked = [.. located.Ranked.Select(h => located.Weighed.Posterior[h])];
            Assert.Equal(ranked.OrderDescending(), ranked);
            foreach ((int leader, PlaceShare place) in WorksheetRow.Leaders(located).Zip(located.Places))
            {
                Assert.Equal(place.Place, located.Weighed.Hypotheses[leader].Place);
            }
        }
    }

    [Theory]
    [InlineData(0, "<1 %")]
    [InlineData(0.0099, "<1 %")]
    [InlineData(0.01, "1 %")]
    [InlineData(0.5, "50 %")]
    [InlineData(0.99, "99 %")]
    [InlineData(0.9901, ">99 %")]
    [InlineData(1, ">99 %")]
    public void Percent_is_never_nothing_and_never_all(double probability, string says) =>
        Assert.Equal(says, LocateWords.Percent(probability, Typography.Plain));

    [Theory]
    [InlineData(1, "1 moment")]
    [InlineData(0, "0 moments")]
    [InlineData(1202, "1 202 moments")]
    public void Moments_agree_with_their_number(long count, string says) =>
        Assert.Equal(says, ObservationWords.InWords(count, Typography.Plain));

    [Fact]
    public void WriteText_of_one_left_out_speaks_of_one()
    {
        LocateAnswer one = Answered.Locate.Value with
        {
            Receivers = [Located with { ProductsLeftOut = 1, RuledOut = [(0, new LogCounts(1, 0, 0, 0, 0, 0))] }],
        };
        string text = Text(one);
        Assert.Contains("1 weaker mixture was not weighed.", text, StringComparison.Ordinal);
        Assert.Contains("(on at 1 moment, heard at 0 of them)", text, StringComparison.Ordinal);
        WrittenText.Agree(text);
        Assert.Contains("2 weaker mixtures were not weighed.", Text(one with { Receivers = [Located with { ProductsLeftOut = 2 }] }),
            StringComparison.Ordinal);
    }

    [Fact]
    public void Place_and_its_short_name_name_the_same()
    {
        foreach (MakingPlace place in Enum.GetValues<MakingPlace>())
        {
            string whole = LocateWords.Place(place, "mast base", "our input");
            string brief = LocateWords.ShortPlace(place, "mast base", "our input");
            Assert.True(brief.Length <= whole.Length);
            Assert.Equal(whole.Contains("mast base", StringComparison.Ordinal), brief.Contains("mast base", StringComparison.Ordinal));
        }

        Assert.Equal("in this receiver", LocateWords.Place(MakingPlace.Receiver, "our input", "our input"));
        Assert.Equal("this receiver", LocateWords.ShortPlace(MakingPlace.Receiver, "our input", "our input"));
    }

    /// <summary>Sure from where the answer says 'it is'; a filter is promised only where it is made in the chain.</summary>
    [Fact]
    public void Follows_promises_a_filter_only_where_it_is_made_here()
    {
        LocatedReceiver located = Located;
        double here = located.Weighed.OfPlace(MakingPlace.Receiver);
        string? follows = LocateWords.Follows(located);
        if (follows is not null && follows.StartsWith("A filter ahead", StringComparison.Ordinal))
        {
            Assert.True(here >= LocateWords.Sure);
        }
        else if (follows is not null)
        {
            Assert.True(here <= 1 - LocateWords.Sure + 1e-12);
        }

        Assert.Null(LocateWords.Follows(located with { Misfits = [new Misfit(MisfitKind.NothingNear, 0, 5)] }));
    }

    [Fact]
    public void Cautions_follow_from_what_is_to_be_done()
    {
        Assert.Single(ObservationWords.Cautions([]));
        Assert.Contains(
            ObservationWords.Cautions([new EmitterDown { Emitter = 0, ByDb = 3, OverNoiseDb = 20, FallDb = 3 }]),
            static c => c.Contains("Nobody climbs", StringComparison.Ordinal));
        Assert.Contains(
            ObservationWords.Cautions([new PadInLine { PadDb = 3, OverNoiseDb = 20, FallDb = 3 }]),
            static c => c.Contains("before you transmit", StringComparison.Ordinal));
    }

    private static string Text(LocateAnswer answer)
    {
        using StringWriter to = new();
        LocateWriter.WriteText(answer, to, TextInk.None);
        return string.Join(' ', to.ToString().Split((char[])[' ', '\n'], StringSplitOptions.RemoveEmptyEntries));
    }

    [GeneratedRegex(@"-?\d+(\.\d+)?")]
    private static partial Regex Number();
}
