using Spurless.Circuits.Response;

namespace Spurless.Circuits.Tests.Response;

/// <summary>Notches of curves by chance, against the definition read out literally: every minimum, every point on both sides.</summary>
public sealed class NotchFinderTests
{
    public static TheoryData<int> Seeds => [.. Enumerable.Range(1, 60)];

    [Theory]
    [MemberData(nameof(Seeds))]
    public void Find_is_the_definition_read_out(int seed)
    {
        double[] db = Curve(seed);
        double[] f = [.. Enumerable.Range(0, db.Length).Select(static i => 100e6 + (i * 25e3))];
        Assert.Equal(Expected(db), NotchFinder.Find(f, db));
    }

    /// <summary>A curve seen in a mirror has its notches mirrored, where no two points are alike.</summary>
    [Theory]
    [MemberData(nameof(Seeds))]
    public void Find_a_curve_turned_round_has_its_notches_turned_round(int seed)
    {
        double[] db = Curve(seed);
        double[] f = [.. Enumerable.Range(0, db.Length).Select(static i => 100e6 + (i * 25e3))];
        int[] turned = [.. NotchFinder.Find(f, [.. db.Reverse()]).Select(i => db.Length - 1 - i).Order()];
        Assert.Equal(NotchFinder.Find(f, db), turned);
    }

    /// <summary>So many dB more or less in front change no notch.</summary>
    [Theory]
    [InlineData(1, -20)]
    [InlineData(2, 6.5)]
    [InlineData(3, -60)]
    public void Find_an_attenuator_in_front_changes_nothing(int seed, double gainDb)
    {
        double[] db = Curve(seed);
        double[] f = [.. Enumerable.Range(0, db.Length).Select(static i => 100e6 + (i * 25e3))];
        Assert.Equal(NotchFinder.Find(f, db), NotchFinder.Find(f, [.. db.Select(d => d + gainDb)]));
    }

    private static int[] Expected(double[] db)
    {
        double best = db.Max();
        List<(int Index, double Rise)> all = [];
        for (int i = 1; i < db.Length - 1; i++)
        {
            if (db[i] > db[i - 1] || db[i] >= db[i + 1])
            {
                continue;
            }

            // How high the curve gets on either side before it is lower than here.
            double Side(IEnumerable<double> points) => points.TakeWhile(d => d >= db[i]).Append(db[i]).Max();
            double left = Side(db[..i].Reverse());
            double right = Side(db[(i + 1)..]);
            if (Math.Min(left, right) >= db[i] + 10 && Math.Max(left, right) > best - 60 && db[i] < best - 10)
            {
                all.Add((i, Math.Min(left, right) - db[i]));
            }
        }

        return [.. all.OrderByDescending(static n => n.Rise).Take(8).Select(static n => n.Index).Order()];
    }

    private static double[] Curve(int seed)
    {
        Random random = new(seed);
        double[] db = new double[200];
        (double Depth, int At, double Width)[] notches =
        [
            .. Enumerable.Range(0, random.Next(0, 13))
                .Select(_ => (5 + (60 * random.NextDouble()), random.Next(200), 1 + (8 * random.NextDouble()))),
        ];
        double noise = random.Next(3) * 4;
        for (int i = 0; i < db.Length; i++)
        {
            db[i] = -(Math.Abs(i - 90) / 4.0) - notches.Sum(n => n.Depth / (1 + Math.Pow((i - n.At) / n.Width, 2)))
                + (noise * random.NextDouble()) + (1e-6 * random.NextDouble());
        }

        return db;
    }
}
