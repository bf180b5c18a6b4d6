using CsCheck;
using Spurless.Circuits.Parts;
using Spurless.Circuits.Solving;
using Spurless.Design.Questions;
using Spurless.Design.Tuning;
using Spurless.Drawing.Responses;
using Spurless.Reports.Designs;
using Spurless.Tests.Common.Fixtures;

namespace Spurless.Reports.Tests.Designs;

/// <summary>The pictures of a design: everything that is asked stands in the frame, and the curve is the circuit's own.</summary>
public sealed class DesignPictureTests
{
    private static readonly Gen<DesignQuestion> _question =
        from centre in Gen.Double[20e6, 500e6]
        from width in Gen.Double[0.001, 0.1]
        from loss in Gen.Double[0.5, 6]
        from reject in Gen.Select(Gen.Double[0.3, 3], Gen.Double[1, 1.05], Gen.Double[5, 80]).Array[0, 6]
        select new DesignQuestion
        {
            Name = "invented",
            PassFromHz = centre * (1 - width),
            PassToHz = centre * (1 + width),
            MostLossDb = loss,
            Reject = [.. reject.Select(r => new RejectDemand(centre * r.Item1, centre * r.Item1 * r.Item2, r.Item3))],
        };

    [Fact]
    public void Wide_picture_holds_every_frequency_and_every_decibel_that_is_asked() => _question.Sample(static question =>
    {
        DesignPicture picture = DesignPicture.Of(question, [], null, null);
        ResponsePlotModel wide = picture.Wide;
        Assert.True(wide.FromHz < question.PassFromHz && wide.ToHz > question.PassToHz);
        Assert.Equal(question.Reject.Count + 1, wide.Overlay.Demands.Count);
        Assert.Equal(question.Reject.Count, picture.Bars.Count);
        foreach ((RejectDemand asked, MaskBar bar) in question.Reject.Zip(picture.Bars))
        {
            Assert.True(wide.FromHz < asked.FromHz && asked.ToHz < wide.ToHz);
            Assert.True(wide.Low < -asked.LeastLossDb);
            Assert.Equal((asked.FromHz, asked.ToHz, asked.LeastLossDb), (bar.FromHz, bar.ToHz, bar.LossDb));
            Assert.Contains("dB at least", bar.Words, StringComparison.Ordinal);
        }

        // Rejections ask the curve to lie below, the pass-band to lie above.
        Assert.Equal([.. question.Reject.Select(static _ => true), false], wide.Overlay.Demands.Select(static d => d.Below));
        Assert.Equal(-question.MostLossDb, wide.Overlay.Demands[^1].Edge);
        Assert.Equal(picture.Bars.Count, picture.Bars.Select(static b => b.Target).Distinct().Count());

        // Without a circuit no curve is drawn and none is claimed.
        Assert.True(double.IsNaN(wide.Quantity(question.CentreHz)));
        Assert.Equal("", wide.CurveName);
    });

    [Fact]
    public void Close_picture_holds_the_pass_band_in_its_middle_and_what_stands_near() => _question.Sample(static question =>
    {
        ResponsePlotModel close = DesignPicture.Of(question, [], null, null).Close;
        Assert.True(close.FromHz > 0 && close.FromHz < question.PassFromHz && close.ToHz > question.PassToHz);
        Assert.False(close.Logarithmic);
        foreach (RejectDemand near in question.Reject.Where(r => r.ToHz >= close.FromHz && r.FromHz <= close.ToHz))
        {
            Assert.True(close.Low < -near.LeastLossDb);
        }
    });

    [Fact]
    public void Curve_is_the_circuits_own_and_not_known_beyond_it()
    {
        Circuit circuit = Topologies.Of("ladder");
        CircuitTwoPort network = new(CircuitSolver.Create(circuit));
        DesignQuestion question = _question.Single();
        Func<double, double> gain = DesignPicture.Of(question, [], circuit, null).Wide.Quantity;
        for (double hz = 50e6; hz < 400e6; hz *= 1.13)
        {
            Assert.Equal(20 * Math.Log10(network.At(hz).S21.Magnitude), gain(hz), 1e-6);
        }

        Assert.Null(DesignPicture.Gain(null));
        Assert.Null(DesignPicture.Gain(circuit with
        {
            Parts = [.. circuit.Parts, new Resistor { Name = "R9", From = "a", To = "z", Resistance = PartValue.Unknown(1, 10) }],
        }));
    }

    [Fact]
    public void Letters_of_rejections_are_all_different() =>
        Assert.Equal(200, Enumerable.Range(0, 200).Select(DesignPicture.Letter).Distinct().Count());

    [Theory]
    [InlineData(153.35e6, 153.35e6, 18, "153.35 MHz, 18 dB")]
    [InlineData(460e6, 470e6, 40.5, "460.0 to 470.0 MHz, 40.5 dB")]
    public void Says_where_and_how_much(double fromHz, double toHz, double db, string says) =>
        Assert.Equal(says, DesignPicture.Says(new RejectDemand(fromHz, toHz, db)));

    [Fact]
    public void Names_of_rejections_go_with_their_bars()
    {
        DesignQuestion question = _question.Single() with { Reject = [new(150e6, 150e6, 20), new(160e6, 161e6, 30)] };
        IReadOnlyList<MaskBar> bars = DesignPicture.Of(question, ["paging", null], null, null).Bars;
        Assert.Equal(["paging, 150.0 MHz: 20 dB at least", "160.0 to 161.0 MHz: 30 dB at least"], bars.Select(static b => b.Words));
    }

    /// <summary>Between two points of a step's curve lies the straight line, beyond them its continuation; delays stand in ns.</summary>
    [Fact]
    public void Step_draws_its_own_points() => Gen.Select(Gen.Enum<TuningReading>(), Gen.Double[-80, 80].Array[2, 12]).Sample(
        static (reading, values) =>
        {
            bool delay = reading == TuningReading.ReflectionDelay;
            TuningStep step = new(
                3, reading, ["C1"], null, null, 145.05e6, 1,
                [.. values.Select((v, i) => (144e6 + (i * 1e5), delay ? v * 1e-9 : v))]);
            ResponsePlotModel model = DesignPicture.Step(step);
            for (int i = 0; i < values.Length; i++)
            {
                Assert.Equal(values[i], model.Quantity(144e6 + (i * 1e5)), 1e-6);
                Assert.InRange(values[i], model.Low - 1e-9, model.High + 1e-9);
            }

            for (int i = 1; i < values.Length; i++)
            {
                Assert.Equal((values[i - 1] + values[i]) / 2, model.Quantity(144e6 + ((i - 0.5) * 1e5)), 1e-6);
            }

            Assert.EndsWith(delay ? "ns" : "dB", model.AxisTitle, StringComparison.Ordinal);
            Assert.True(model.High > model.Low);
        });

    [Theory]
    [InlineData("C1", 0.02, "more: plates further in")]
    [InlineData("C1", -0.02, "less: plates further out")]
    [InlineData("L1", 0.02, "more: press its turns together")]
    [InlineData("L1", -0.02, "less: pull its turns apart")]
    [InlineData("nobody", 0.02, "more")]
    public void Hand_says_which_way_a_part_is_turned(string part, double change, string says) =>
        Assert.Equal(says, TunePicture.Hand(Topologies.Of("ladder"), part, change));
}
