using System.Globalization;
using Bunit;
using CsCheck;
using Spurless.Reports.Recordings;
using Spurless.Reports.Tests.Text;
using Spurless.Signals.Listening;
using Spurless.Signals.Recognition;

namespace Spurless.Reports.Tests.Recordings;

/// <summary>
/// The pictures beside what was heard, read back: every point of a tone and of a spectrum lies where its figure is on the printed scale.
/// </summary>
public sealed class EvidencePicturesTests
{
    private const double Left = 46, Right = 472;

    private static readonly Gen<(double From, double To, TonePoint[] Tone)> _tone =
        from start in Gen.Double[0, 500]
        from length in Gen.Double[0.05, 30]
        from level in Gen.Bool
        from hertz in Gen.Double[60, 3_000]
        from swing in Gen.Double[0, 0.4]
        from points in Gen.Select(Gen.Double[-1, 1], Gen.Double[-70, 0], Gen.Int[0, 5]).Array[2, 40]
        select (start, start + length, points.Select((p, i) => new TonePoint(
            start + (length * i / (points.Length - 1)),
            level || (p.Item3 == 0 && i > 0) ? null : hertz * (1 + (swing * p.Item1)),
            p.Item2)).ToArray());

    [Fact]
    public void A_tones_line_lies_at_its_figures_on_the_printed_scale() => _tone.Sample(
        static (from, to, tone) =>
        {
            bool level = tone.All(static p => p.Hz is null);
            double[] values = [.. tone.Select(p => (level ? p.Db : p.Hz) ?? double.NaN)];
            using BunitContext context = new();
            IRenderedComponent<EvidenceTrace> figure = context.Render<EvidenceTrace>(p => p
                .Add(static f => f.Heard, Heard(to + 1, null))
                .Add(static f => f.Of, Found(from, to) with { Trace = new Trace { Tone = tone } })
                .Add(static f => f.Id, "t"));

            (double Value, double Y)[] scale = Scale(figure);
            List<(double X, double Y)> line = Points(figure.Find("path[stroke]").GetAttribute("d")!);
            Assert.Equal(values.Count(double.IsFinite), line.Count);
            int at = 0;
            for (int i = 0; i < values.Length; i++)
            {
                if (double.IsFinite(values[i]))
                {
                    Assert.Equal(Left + ((Right - Left) * (tone[i].AtS - from) / (to - from)), line[at].X, 0.06);
                    Assert.Equal(On(scale, Math.Max(values[i], scale[0].Value)), line[at++].Y, 0.2);
                }
            }

            // The scale holds all of it, in steps of 1, 2 or 5 times a power of ten.
            double step = scale[1].Value - scale[0].Value, mantissa = step / Math.Pow(10, Math.Floor(Math.Log10(step) + 1e-9));
            Assert.Contains((int)Math.Round(mantissa), (int[])[1, 2, 5]);
            Assert.InRange(scale.Length, 2, 12);
            WrittenText.Figures(figure.Find("desc").TextContent);
            Assert.Equal(level ? "dB of full scale" : "Hz", figure.FindAll("text")[^1].TextContent);
        },
        iter: 100);

    // Where the tone is lost the line is broken: as many beginnings as there are runs of known points.
    [Fact]
    public void A_tone_that_is_lost_for_a_while_leaves_a_gap() => _tone.Sample(
        static (from, to, tone) =>
        {
            if (tone.All(static p => p.Hz is null))
            {
                return;
            }

            using BunitContext context = new();
            string d = context.Render<EvidenceTrace>(p => p.Add(static f => f.Heard, Heard(to + 1, null))
                .Add(static f => f.Of, Found(from, to) with { Trace = new Trace { Tone = tone } }).Add(static f => f.Id, "t"))
                .Find("path[stroke]").GetAttribute("d")!;
            int runs = tone.Where((p, i) => p.Hz is not null && (i == 0 || tone[i - 1].Hz is null)).Count();
            Assert.Equal(runs, d.Count(static c => c == 'M'));
        },
        iter: 40);

    // The mean power of each step of frequency over the time it was on, in decibels: means are of powers, not of decibels.
    [Fact]
    public void A_spectrum_is_the_mean_power_while_it_was_on() =>
        Gen.Select(Gen.Byte.Array[24 * 9], Gen.Int[0, 20], Gen.Int[1, 4], Gen.Bool).Sample(
            static (cells, first, columns, band) =>
            {
                const int Columns = 24, Rows = 9;
                int last = Math.Min(Columns, first + columns);
                Heard heard = Heard(24, new Spectrogram(Columns, Rows, cells)) with
                {
                    IsBand = band,
                    LowHz = band ? 145e6 : 0,
                    HighHz = band ? 145.9e6 : 4_500
                };
                using BunitContext context = new();
                IRenderedComponent<EvidenceSpectrum> figure = context.Render<EvidenceSpectrum>(p => p
                    .Add(static f => f.Heard, heard).Add(static f => f.Of, Found(first, last)).Add(static f => f.Id, "s"));

                double[] mean = new double[Rows];
                for (int row = 0; row < Rows; row++)
                {
                    double power = 0;
                    for (int column = first; column < last; column++)
                    {
                        // Half decibels over -127.5 dB of full scale.
                        power += Math.Pow(10, ((cells[(column * Rows) + row] / 2.0) - 127.5) / 10);
                    }

                    mean[row] = 10 * Math.Log10(power / (last - first));
                }

                (double Value, double Y)[] scale = Scale(figure);
                List<(double X, double Y)> line = Points(figure.Find("path[stroke]").GetAttribute("d")!);
                Assert.Equal(Rows, line.Count);
                for (int row = 0; row < Rows; row++)
                {
                    Assert.Equal(Left + ((Right - Left) * (row + 0.5) / Rows), line[row].X, 0.06);
                    Assert.Equal(On(scale, Math.Max(mean[row], scale[0].Value)), line[row].Y, 0.2);
                }

                // The strongest step's middle, in the band's megahertz or the audio's kilohertz.
                int most = Array.IndexOf(mean, mean.Max());
                string says = band
                    ? (145 + (0.1 * (most + 0.5))).ToString("0.000", CultureInfo.InvariantCulture) + " MHz"
                    : (0.5 * (most + 0.5)).ToString("0.0", CultureInfo.InvariantCulture) + " kHz";
                if (band)
                {
                    Assert.Equal($"The strongest step lies at {says}.", figure.Find("desc").TextContent);
                }
                else
                {
                    Assert.EndsWith(" kHz.", figure.Find("desc").TextContent, StringComparison.Ordinal);
                }
            },
            iter: 100);

    [Fact]
    public void Without_a_picture_or_a_trace_nothing_is_drawn()
    {
        using BunitContext context = new();
        Assert.Equal("", context.Render<EvidenceSpectrum>(static p => p.Add(static f => f.Heard, Heard(5, null))
            .Add(static f => f.Of, Found(0, 1)).Add(static f => f.Id, "s")).Markup.Trim());
        Assert.Equal("", context.Render<EvidenceTrace>(static p => p.Add(static f => f.Heard, Heard(5, null))
            .Add(static f => f.Of, Found(0, 1)).Add(static f => f.Id, "t")).Markup.Trim());
    }

    private static Heard Heard(double seconds, Spectrogram? picture) => new(seconds, null, false, 0, 4_500, [], picture);

    private static Finding Found(double from, double to) => new()
    {
        Kind = SignalKind.Morse,
        StartS = from,
        EndS = to,
        Confidence = 0.9,
        ToneHz = 700,
        Evidence = new Evidence(),
    };

    // Lines of the scale with the figure printed beside each: text stands four units lower than its line.
    private static (double Value, double Y)[] Scale<T>(IRenderedComponent<T> figure)
        where T : Microsoft.AspNetCore.Components.IComponent
    {
        double[] lines = [.. figure.FindAll("path.base").Select(static p => Points(p.GetAttribute("d")!.Split('H')[0])[0].Y)];
        return
        [
            .. figure.FindAll("text.end").Select(static t => (
                Figure: double.TryParse(t.TextContent, NumberStyles.Float, CultureInfo.InvariantCulture, out double v) ? v : (double?)null,
                Y: double.Parse(t.GetAttribute("y")!, CultureInfo.InvariantCulture) - 4))
                .Where(t => t.Figure is not null && lines.Any(l => Math.Abs(l - t.Y) < 0.11))
                .Select(static t => (t.Figure!.Value, t.Y)).OrderBy(static t => t.Value),
        ];
    }

    private static double On((double Value, double Y)[] scale, double value) => scale[0].Y
        + ((scale[^1].Y - scale[0].Y) * (value - scale[0].Value) / (scale[^1].Value - scale[0].Value));

    private static List<(double X, double Y)> Points(string d) =>
    [
        .. d.Split(['M', 'L'], StringSplitOptions.RemoveEmptyEntries).Select(static p =>
        {
            string[] xy = p.Split(' ');
            return (double.Parse(xy[0], CultureInfo.InvariantCulture), double.Parse(xy[1], CultureInfo.InvariantCulture));
        }),
    ];
}
