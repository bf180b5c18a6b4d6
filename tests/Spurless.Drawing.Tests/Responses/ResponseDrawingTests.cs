using System.Globalization;
using System.Numerics;
using Spurless.Drawing.Plotting;
using Spurless.Drawing.Responses;
using Spurless.Drawing.Schematics;
using Spurless.Tests.Common;

namespace Spurless.Drawing.Tests.Responses;

public class ResponseDrawingTests
{
    [Theory]
    [InlineData(6.8e-12, "F", "6.8 pF")]
    [InlineData(27.6e-9, "H", "27.6 nH")]
    [InlineData(1e-6, "H", "1 \u00B5H")]
    [InlineData(50, "\u03A9", "50 \u03A9")]
    [InlineData(4700, "\u03A9", "4.7 k\u03A9")]
    public void Engineering_prints_prefix(double value, string unit, string expected) =>
        Assert.Equal(expected, PartWords.Engineering(value, unit));

    [Fact]
    public void Smith_impedance_of_centre_short_and_reactance_is_what_the_chart_is_made_of()
    {
        // The chart's definition: Z = Z0 (1 + G) / (1 - G).
        Assert.Equal(50, SmithScene.Impedance(0, 50).Real, 9);
        Assert.Equal(0, SmithScene.Impedance(-1, 50).Magnitude, 9);
        Assert.Equal(50, SmithScene.Impedance(Complex.ImaginaryOne, 50).Imaginary, 9);
    }

    [Theory]
    [InlineData(300)]
    [InlineData(420)]
    public void Smith_no_text_meets_another_and_none_leaves_the_chart(double width)
    {
        // A series resonance at 100 MHz, Q about 9.
        static Complex Reflection(double f)
        {
            Complex z = new(40, 360 * ((f / 100e6) - (100e6 / f)));
            return (z - 50) / (z + 50);
        }

        Scene scene = SmithScene.Draw(
            Reflection,
            80e6,
            125e6,
            50,
            [new(100e6, "100.00 MHz, return loss 19.1 dB", true), new(80e6, "80.0", false), new(125e6, "125.0", false)],
            width,
            "a resonance");
        SceneChecks.NoTextMeetsAnother(scene);
        SceneChecks.AllInside(scene);
        Assert.Contains("at 100.0 MHz 40 + j0 ohm", scene.Description, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(358, true)]
    [InlineData(728, true)]
    [InlineData(358, false)]
    [InlineData(728, false)]
    public void Plot_no_text_meets_another_and_the_curve_stays_in_its_frame(double width, bool logarithmic)
    {
        Scene scene = ResponsePlotScene.Draw(
            new ResponsePlotModel
            {
                Title = "gain",
                Quantity = static f => -10 * Math.Log10(1 + Math.Pow(40 * ((f / 145e6) - (145e6 / f)), 2)),
                AxisTitle = "gain, dB",
                CurveName = "gain",
                FromHz = logarithmic ? 47e6 : 140e6,
                ToHz = logarithmic ? 510e6 : 150e6,
                Logarithmic = logarithmic,
                Low = -40,
                High = 0,
                ChannelHz = 145.05e6,
                Marks = [new PlotMark(145.65e6, "D"), new PlotMark(148.6125e6, "E"), new PlotMark(466.1e6, "Q")],
            },
            width);
        SceneChecks.NoTextMeetsAnother(scene);
        SceneChecks.AllInside(scene);
        foreach (ScenePath curve in scene.Items.OfType<ScenePath>().Where(static p => p.Class == "curve"))
        {
            double[] numbers =
            [
                .. curve.Data.Split(['M', 'L', ' '], StringSplitOptions.RemoveEmptyEntries).Select(
                    static n => double.Parse(n, CultureInfo.InvariantCulture)),
            ];
            Assert.All(numbers.Where(static (_, i) => i % 2 == 1), static y => Assert.InRange(y, 33.9, 184.1));
        }
    }

    [Theory]
    [InlineData(358)]
    [InlineData(728)]
    public void Plot_letters_of_a_crowd_all_stand_in_a_row_in_order_and_off_the_channels_figure(double width)
    {
        string[] letters = ["A", "B", "C", "D", "E", "F", "G", "H", "I", "J", "K"];
        Scene scene = ResponsePlotScene.Draw(
            new ResponsePlotModel
            {
                Title = "gain",
                Quantity = static _ => -10,
                AxisTitle = "gain, dB",
                CurveName = "gain",
                FromHz = 47e6,
                ToHz = 510e6,
                Logarithmic = true,
                Low = -40,
                High = 0,
                ChannelHz = 145.05e6,
                Marks = [.. letters.Select(static (l, i) => new PlotMark(144e6 + (i * 0.9e6), l))],
            },
            width);
        SceneChecks.NoTextMeetsAnother(scene);
        SceneChecks.AllInside(scene);
        Assert.Equal(
            letters,
            scene.Items.OfType<SceneText>().Where(t => letters.Contains(t.Text)).OrderBy(static t => t.X).Select(static t => t.Text));
    }

    /// <summary>
    /// A curve's name stands beside it; where there is no room for it in a narrow picture, what stands over the axis names it.
    /// </summary>
    [Fact]
    public void Draw_name_of_the_curve_never_lies_on_the_curve()
    {
        int named = 0;
        foreach (double width in (double[])[300, 358, 420, 560, 700])
        {
            foreach (double depth in (double[])[12, 20, 26])
            {
                Scene scene = ResponsePlotScene.Draw(
                    new ResponsePlotModel
                    {
                        Title = "return loss",
                        Quantity = f => depth * Math.Exp(-Math.Pow((f - 145e6) / 2.4e6, 4)),
                        AxisTitle = "return loss, dB",
                        CurveName = "return loss of the input",
                        FromHz = 134e6,
                        ToHz = 156e6,
                        Low = 0,
                        High = 30,
                        Downwards = true,
                        ChannelHz = 145.05e6,
                    },
                    width,
                    50);
                Assert.Empty(SceneGeometry.Collisions(scene, "curve"));
                Assert.Contains(scene.Items.OfType<SceneText>(), static t => t.Text == "return loss, dB");
                named += scene.Items.OfType<SceneText>().Count(static t => t.Text == "return loss of the input");
            }
        }

        Assert.InRange(named, 6, 14); // wide there is room, narrow there is none
    }
}
