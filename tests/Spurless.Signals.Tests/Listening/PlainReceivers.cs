using Spurless.Signals.Tests.Making;

namespace Spurless.Signals.Tests.Listening;

/// <summary>A made transmission with what a plain receiver would decide of it: a row of decisions to a word.</summary>
/// <param name="Signal">The audio at 48 kHz.</param>
/// <param name="Read">Reads the audio with its noise, in which the signal begins at a sample: how many words there are, and how many
/// are read wrong.</param>
internal sealed record PlainCase(double[] Signal, Func<double[], int, (int Words, int Wrong)> Read);

/// <summary>
/// Plain receivers of the tests: correlators or means over each symbol with its clock known, hard decisions, no correction. Where one
/// reads one word in a hundred wrong is the yardstick for detection: the standards name no sensitivity, so this is our own measure.
/// </summary>
internal static class PlainReceivers
{
    public const double Rate = 48_000;

    /// <summary>Bell 202 packet: energies of both tones over each bit; a word is a frame.</summary>
    public static PlainCase Afsk(int number)
    {
        (int[] bits, List<(int From, int To)> frames) = Frames(number, 40);
        int[] line = PacketSignal.Nrzi(bits);
        return new PlainCase(PacketSignal.Afsk(bits, Rate), (x, at) => Count(frames, k =>
        {
            int from = at + (int)Math.Ceiling(k * Rate / 1_200);
            int to = at + (int)Math.Ceiling((k + 1) * Rate / 1_200);
            return Energy(x, from, to, 1_200) > Energy(x, from, to, 2_200) == (line[k] == 1);
        }));
    }

    /// <summary>
    /// Scrambled packet: a low-pass, each bit taken at its middle; a word is a frame, in which the unscrambler trebles an error.
    /// </summary>
    public static PlainCase Scrambled(int number)
    {
        (int[] bits, List<(int From, int To)> frames) = Frames(number, 150);
        int[] sent = PacketSignal.Scrambled(PacketSignal.Nrzi(bits));
        return new PlainCase(PacketSignal.Direct(bits, Rate), (x, at) =>
        {
            double[] y = Channels.Band(x, Rate, 0, 5_760, 3_000);
            return Count(frames, k => At(y, at + (k + 0.5) * Rate / 9_600) > 0 == (sent[k] == 1));
        });
    }

    /// <summary>Digital squelch: mean over each bit; a word is 23 bits.</summary>
    public static PlainCase DigitalSquelch(int number)
    {
        string code = new[] { "023", "025", "114", "162", "205", "243", "306", "411", "503", "624", "731", "754" }[number % 12];
        int word = DigitalSquelchSignal.Word(code);
        const double Seconds = 4;
        return new PlainCase(DigitalSquelchSignal.Wave(code, Seconds, Rate), (x, at) =>
            Count(Words((int)(Seconds * 134.4), 23), k => Mean(x, at, k, 134.4) > 0 == (word >> (k % 23) % 23 & 1) > 0));
    }

    /// <summary>Two levels at 2,400 Bd: mean over each symbol; a word is 32 of them.</summary>
    public static PlainCase TwoLevels(int number)
    {
        const double Baud = 2_400;
        int[] bits = BitSignals.RandomBits((int)(3 * Baud), number);
        return new PlainCase(BitSignals.Keyed(BitSignals.Levels(bits, true), Baud, Rate, 0.3), (x, at) =>
            Count(Words(bits.Length, 32), k => Mean(x, at, k, Baud) > 0 == (bits[k] == 1)));
    }

    /// <summary>
    /// Four levels at 4,800 Bd: a low-pass as wide as they need, each symbol taken at its middle, the nearest level; a word is 32 of them.
    /// </summary>
    public static PlainCase FourLevels(int number)
    {
        const double Baud = 4_800;
        int[] bits = BitSignals.RandomBits((int)(6 * Baud), number);
        double[] levels = [.. Enumerable.Range(0, bits.Length / 2)
            .Select(i => (bits[2 * i] == 1 ? -1 : 1) * (bits[2 * i + 1] == 1 ? 1 : 1 / 3.0))];
        double[] signal = BitSignals.Shaped(levels, Baud, Rate);
        double size = 0.1 / Sound.Rms(signal);
        return new PlainCase(signal, (x, at) =>
        {
            double[] y = Channels.Band(x, Rate, 0, 0.65 * Baud, 500);
            return Count(Words(levels.Length, 32), k =>
            {
                double v = At(y, at + (k + 0.5) * Rate / Baud) / size;
                double nearest = (v < 0 ? -1 : 1) * (Math.Abs(v) > 2 / 3.0 ? 1 : 1 / 3.0);
                return Math.Abs(nearest - levels[k]) < 0.1;
            });
        });
    }

    /// <summary>Paging at 1,200 bit/s: mean over each bit; a word is a codeword.</summary>
    public static PlainCase Paging(int number)
    {
        int[] bits = PagingSignal.Bits([(1_000_003 + number, 3, "INVENTED"), (700_016, 3, "NO ONE")]);
        return new PlainCase(PagingSignal.Wave(bits, 1_200, Rate), (x, at) =>
            Count([.. Words(bits.Length, 32).Where(static w => w.From >= 576)], k => Mean(x, at, k, 1_200) > 0 == (bits[k] == 0)));
    }

    private static (int[] Bits, List<(int From, int To)> Frames) Frames(int number, int leadFlags)
    {
        byte[][] all = [.. Enumerable.Range(0, 4).Select(k => PacketSignal.Frame("TEST01", "NOCALL", $"invented packet {number} {k}"))];
        List<(int, int)> frames = [];
        int at = 8 * leadFlags;
        foreach (byte[] frame in all)
        {
            int length = PacketSignal.Bits([frame], 0, 0, 0).Length;
            frames.Add((at, at + length));
            at += length + 16;
        }

        return (PacketSignal.Bits(all, leadFlags), frames);
    }

    private static List<(int From, int To)> Words(int count, int length) =>
        [.. Enumerable.Range(0, count / length).Select(w => (w * length, (w + 1) * length))];

    private static (int Words, int Wrong) Count(List<(int From, int To)> words, Func<int, bool> right) =>
        (words.Count, words.Count(w => !Enumerable.Range(w.From, w.To - w.From).All(right)));

    private static double Mean(double[] x, int at, int k, double baud)
    {
        int from = at + (int)Math.Round(k * Rate / baud);
        int to = at + (int)Math.Round((k + 1) * Rate / baud);
        double sum = 0;
        for (int n = from; n < to; n++)
        {
            sum += x[n];
        }

        return sum;
    }

    private static double At(double[] x, double sample)
    {
        int n = (int)sample;
        return x[n] + (x[n + 1] - x[n]) * (sample - n);
    }

    private static double Energy(double[] x, int from, int to, double hz)
    {
        (double sStep, double cStep) = Math.SinCos(2 * Math.PI * hz / Rate);
        (double s, double c, double re, double im) = (0, 1, 0, 0);
        for (int n = from; n < Math.Min(to, x.Length); n++)
        {
            re += x[n] * c;
            im += x[n] * s;
            (c, s) = (c * cStep - s * sStep, s * cStep + c * sStep);
        }

        return re * re + im * im;
    }
}
