using System.Globalization;
using System.Numerics;
using CsCheck;
using Spurless.Drawing.Plotting;
using Spurless.Drawing.Responses;
using Spurless.Tests.Common;

namespace Spurless.Drawing.Tests.Responses;

/// <summary>
/// The chart against its equations (P. H. Smith, 'Transmission line calculator', Electronics 12, January 1939; the circles as every
/// textbook has them): resistance r is a circle of radius 1/(1 + r) about r/(1 + r), reactance x an arc of radius 1/|x| through the open
/// point.
/// </summary>
public sealed class SmithSceneTests
{
    private const double Width = 400;
    private const double Radius = (Width / 2) - 34;

    private static readonly PlotPoint _centre = new(Width / 2, Radius + 18);

    [Fact]
    public void Circles_of_resistance_have_the_radius_and_the_centre_of_the_formula()
    {
        SceneCircle[] circles = [.. Scene(static _ => 0).Items.OfType<SceneCircle>().Where(static c => c.Class.StartsWith("grid",
            StringComparison.Ordinal))];
        double[] resistances = [0.2, 0.5, 1, 2, 5];
        Assert.Equal(resistances.Length, circles.Length);
        foreach ((double r, SceneCircle circle) in resistances.Zip(circles))
        {
            Assert.Equal(Radius / (1 + r), circle.Radius, 1e-9);
            Assert.Equal(_centre.X + (Radius * r / (1 + r)), circle.X, 1e-9);
            Assert.Equal(_centre.Y, circle.Y, 1e-9);

            // All of them touch in the open point.
            Assert.Equal(_centre.X + Radius, circle.X + circle.Radius, 1e-9);
        }
    }

    [Fact]
    public void Arcs_of_reactance_run_from_the_rim_to_the_open_point_with_radius_one_over_x()
    {
        ScenePath[] arcs = [.. Scene(static _ => 0).Items.OfType<ScenePath>().Where(static p =>
            p.Data.Contains('A', StringComparison.Ordinal))];
        Assert.Equal(10, arcs.Length);
        double[] reactances = [0.2, -0.2, 0.5, -0.5, 1, -1, 2, -2, 5, -5];
        foreach ((double x, ScenePath arc) in reactances.Zip(arcs))
        {
            double[] n = [.. arc.Data.Split('M', 'A', ' ').Where(static t => t.Length > 0)
                .Select(static t => double.Parse(t, CultureInfo.InvariantCulture))];
            Complex z = new(0, x), rim = (z - 1) / (z + 1);
            Assert.Equal(_centre.X + (Radius * rim.Real), n[0], 0.051);
            Assert.Equal(_centre.Y - (Radius * rim.Imaginary), n[1], 0.051);
            Assert.Equal(Radius / Math.Abs(x), n[2], 0.051);
            Assert.Equal((_centre.X + Radius, _centre.Y), (n[7], n[8]));

            // Both ends lie on the circle about 1 + j/x, and it turns the way that stays inside the rim: clockwise below.
            PlotPoint about = new(_centre.X + Radius, _centre.Y - (Radius / x));
            Assert.Equal(Radius / Math.Abs(x), double.Hypot(n[0] - about.X, n[1] - about.Y), 0.1);
            Assert.Equal(x < 0 ? 1 : 0, n[6]);
        }
    }

    [Fact]
    public void Impedance_and_reflection_undo_each_other() => Gen.Select(
        Gen.Double[0.01, 1000], Gen.Double[-1000, 1000], Gen.Double[10, 300]).Sample(static (r, x, reference) =>
        {
            Complex z = new(r, x), g = (z - reference) / (z + reference);
            Assert.Equal(0, (SmithScene.Impedance(g, reference) - z).Magnitude, 1e-9 * z.Magnitude * (1 + (z.Magnitude / reference)));
        });

    [Fact]
    public void Marks_lie_on_the_reflection_at_their_frequency_and_those_beyond_the_sweep_are_left_out() => Gen.Select(
        Gen.Double[0, 1], Gen.Double[0, 6.28], Gen.Double[50e6, 300e6]).Sample(static (size, angle, hertz) =>
        {
            Complex Reflection(double f) => Complex.FromPolarCoordinates(size, angle + (f / 1e8));
            Scene scene = SmithScene.Draw(
                Reflection, 100e6, 200e6, 50, [new(hertz, "it", true)], Width, "something");
            SceneCircle[] balls = [.. scene.Items.OfType<SceneCircle>().Where(static c => c.Class.Contains("ball",
                StringComparison.Ordinal))];
            Assert.Equal(hertz is >= 100e6 and <= 200e6 ? 1 : 0, balls.Length);
            foreach (SceneCircle ball in balls)
            {
                Complex g = Reflection(hertz);
                Assert.Equal(_centre.X + (Radius * g.Real), ball.X, 1e-9);
                Assert.Equal(_centre.Y - (Radius * g.Imaginary), ball.Y, 1e-9);
                Assert.True(double.Hypot(ball.X - _centre.X, ball.Y - _centre.Y) <= Radius + 1e-9);
            }

            SceneChecks.AllInside(scene);
            SceneChecks.NoTextMeetsAnother(scene);
        });

    [Fact]
    public void Trace_of_a_passive_reflection_stays_within_the_rim_and_keeps_its_loops()
    {
        // A line of 20 m before a short: it runs round the rim once in 5 MHz (half a wave at v = c/1.5).
        static Complex Line(double f) => -Complex.Exp(new Complex(0, -4 * Math.PI * f * 20 * 1.5 / 299_792_458));
        ScenePath trace = Scene(Line).Items.OfType<ScenePath>().Single(static p => p.Class == "curve");
        (PlotPoint From, PlotPoint To)[] stretches = [.. SceneGeometry.Stretches(trace)];
        Assert.All(stretches, static s => Assert.Equal(Radius, double.Hypot(s.To.X - _centre.X, s.To.Y - _centre.Y), 0.2));

        // The length of way that it runs: as many turns as the electrical length says, of 100 MHz.
        double turns = 2 * 100e6 * 20 * 1.5 / 299_792_458;
        double way = stretches.Sum(static s => double.Hypot(s.To.X - s.From.X, s.To.Y - s.From.Y));
        Assert.InRange(way, 0.97 * turns * 2 * Math.PI * Radius, 1.01 * turns * 2 * Math.PI * Radius);
    }

    [Theory]
    [InlineData(0, 50, "0 + j50 ohm")]
    [InlineData(-1e-12, 50, "0 + j50 ohm")]
    [InlineData(-0.01, -50, "0 - j50 ohm")]
    [InlineData(75, -0.01, "75 - j0 ohm")]
    [InlineData(24.96, 10, "25 + j10 ohm")]
    public void Description_says_the_impedance_of_each_mark_and_never_a_negative_nothing(double r, double x, string says)
    {
        Complex z = new(r, x);
        Assert.Contains("at 150.0 MHz " + says + ".", Scene(_ => (z - 50) / (z + 50)).Description, StringComparison.Ordinal);
    }

    [Fact]
    public void Description_of_an_open_circuit_and_of_no_mark_is_a_sentence()
    {
        Assert.EndsWith("at 150.0 MHz an open circuit.", Scene(static _ => 1).Description, StringComparison.Ordinal);
        Scene none = SmithScene.Draw(static _ => 0, 100e6, 200e6, 50, [], Width, "something");
        Assert.EndsWith("circles of resistance and reactance in ohms.", none.Description, StringComparison.Ordinal);
    }

    [Fact]
    public void Figures_on_the_rim_are_ohms_of_the_reference()
    {
        // 75 ohm: r = 0.2 is 15 ohm, x = 2 is j150; the standard's 50 gives 10 and j100.
        string[] texts = [.. SmithScene.Draw(static _ => 0, 1e6, 2e6, 75, [], Width, "x").Items.OfType<SceneText>().Select(static t =>
            t.Text)];
        Assert.Superset(new HashSet<string> { "15", "37.5", "75", "150", "375", "j150", "\u2212j150", "0", "\u221E" }, texts.ToHashSet());
    }

    [Fact]
    public void Readings_lie_on_their_points_and_a_crowd_is_thinned()
    {
        Complex[] measured = [.. Enumerable.Range(0, 500).Select(static i => Complex.FromPolarCoordinates(0.8, i * 2 * Math.PI / 500))];
        Scene scene = SmithScene.Draw(
            static _ => 0, 1e6, 2e6, 50, [], Width, "x", measured, besideMeasured: [new Complex(0, 0.5), new Complex(2, 2)]);
        PlotPoint[] crosses =
        [
            .. scene.Items.OfType<ScenePath>().Where(static p => p.Class == "meas").Select(static p =>
            {
                (PlotPoint From, PlotPoint To) s = SceneGeometry.Stretches(p).First();
                return new PlotPoint((s.From.X + s.To.X) / 2, (s.From.Y + s.To.Y) / 2);
            }),
        ];

        // The last is the other network's, the one beyond the chart is left out.
        Assert.Equal(_centre.Y - (0.5 * Radius), crosses[^1].Y, 0.11);
        Assert.All(crosses[..^1], static c => Assert.Equal(0.8 * Radius, double.Hypot(c.X - _centre.X, c.Y - _centre.Y), 0.15));
        Assert.All(crosses[..^2].Zip(crosses[1..^1]), static p =>
            Assert.True(double.Hypot(p.First.X - p.Second.X, p.First.Y - p.Second.Y) >= 6.8));
        Assert.InRange(crosses.Length, 80, 125); // 834 pixels of way, one in 7
    }

    private static Scene Scene(Func<double, Complex> reflection) =>
        SmithScene.Draw(reflection, 100e6, 200e6, 50, [new(150e6, "it", true)], Width, "something");
}
