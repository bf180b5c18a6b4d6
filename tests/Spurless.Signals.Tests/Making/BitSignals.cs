namespace Spurless.Signals.Tests.Making;

/// <summary>Two- and four-level keying of a baseband: the frequency of an FSK transmitter, or the voltage behind a discriminator.</summary>
internal static class BitSignals
{
    /// <summary>Square symbols with a raised-cosine change over a share of the symbol, phase kept exactly over the whole message.</summary>
    public static double[] Keyed(IReadOnlyList<double> levels, double rateBd, double sampleRate, double rise = 0.25, double drift = 0)
    {
        double rate = rateBd * (1 + drift);
        double[] x = new double[(int)Math.Round(levels.Count / rate * sampleRate)];
        for (int n = 0; n < x.Length; n++)
        {
            double t = n / sampleRate * rate;
            int k = Math.Min(levels.Count - 1, (int)t);
            double into = t - k;
            double from = k == 0 ? levels[0] : levels[k - 1];
            x[n] = into < rise ? from + (levels[k] - from) * 0.5 * (1 - Math.Cos(Math.PI * into / rise)) : levels[k];
        }

        return x;
    }

    /// <summary>
    /// Symbols shaped by a raised cosine in frequency (roll-off 0.2), as four-level land-mobile transmitters and 9,600 Bd modems have it.
    /// </summary>
    public static double[] Shaped(IReadOnlyList<double> levels, double rateBd, double sampleRate, double rollOff = 0.2, double drift = 0)
    {
        double rate = rateBd * (1 + drift);
        double[] x = new double[(int)Math.Round(levels.Count / rate * sampleRate)];
        for (int n = 0; n < x.Length; n++)
        {
            double t = n / sampleRate * rate - 0.5;
            int near = (int)Math.Round(t);
            double sum = 0;
            for (int k = Math.Max(0, near - 8); k <= Math.Min(levels.Count - 1, near + 8); k++)
            {
                double u = t - k;
                double sinc = Math.Abs(u) < 1e-9 ? 1 : Math.Sin(Math.PI * u) / (Math.PI * u);
                double den = 1 - 4 * rollOff * rollOff * u * u;
                double roll = Math.Abs(den) < 1e-6 ? Math.PI / 4 * 1 : Math.Cos(Math.PI * rollOff * u) / den;
                sum += levels[k] * sinc * roll;
            }

            x[n] = sum;
        }

        return x;
    }

    public static double[] Levels(IEnumerable<int> bits, bool oneIsPositive) =>
        [.. bits.Select(b => (b == 1) == oneIsPositive ? 1.0 : -1.0)];

    public static int[] RandomBits(int count, int seed)
    {
        Random random = new(seed);
        return [.. Enumerable.Range(0, count).Select(_ => random.Next(2))];
    }
}

/// <summary>Radio paging after ITU-R M.584: preamble, sync words, codewords; addresses and messages are invented.</summary>
internal static class PagingSignal
{
    public const uint Sync = 0x7CD215D8;
    public const uint Idle = 0x7A89C197;

    /// <summary>A codeword from its 21 leading bits: the remainder by long division over the generator, and even parity.</summary>
    public static uint Codeword(uint data21)
    {
        uint shifted = data21 << 10;
        for (int bit = 30; bit >= 10; bit--)
        {
            if ((shifted >> bit & 1) == 1)
            {
                shifted ^= 0x769u << (bit - 10);
            }
        }

        uint word = (data21 << 10 | shifted & 0x3FF) << 1;
        int ones = 0;
        for (int bit = 1; bit < 32; bit++)
        {
            ones += (int)(word >> bit & 1);
        }

        return word | (uint)(ones & 1);
    }

    public static uint Address(int ric, int function) => Codeword((uint)(ric >> 3) << 2 | (uint)function);

    public static uint[] Message7Bit(string text)
    {
        List<int> bits = [];
        foreach (char c in text)
        {
            for (int b = 0; b < 7; b++)
            {
                bits.Add(c >> b & 1);
            }
        }

        while (bits.Count % 20 != 0)
        {
            bits.Add(0);
        }

        return [.. bits.Chunk(20).Select(static chunk => Codeword(1u << 20 | chunk.Aggregate(0u, static (v, b) => v << 1 | (uint)b)))];
    }

    /// <summary>The bits of a transmission: 576 bits of preamble, then batches until the messages are sent.</summary>
    public static int[] Bits(IReadOnlyList<(int Ric, int Function, string Text)> calls, int extraBatches = 0, int preamble = 576)
    {
        List<uint> words = [];
        foreach ((int ric, int function, string text) in calls)
        {
            while (words.Count % 16 / 2 != (ric & 7) || words.Count % 2 != 0)
            {
                words.Add(Idle);
            }

            words.Add(Address(ric, function));
            words.AddRange(Message7Bit(text));
        }

        while (words.Count % 16 != 0)
        {
            words.Add(Idle);
        }

        words.AddRange(Enumerable.Repeat(Idle, 16 * extraBatches));
        List<int> bits = [];
        for (int i = 0; i < preamble; i++)
        {
            bits.Add((i + 1) & 1);
        }

        for (int w = 0; w < words.Count; w++)
        {
            if (w % 16 == 0)
            {
                Push(bits, Sync);
            }

            Push(bits, words[w]);
        }

        return [.. bits];
    }

    /// <summary>The waveform: a positive sample is 0, as the standard's positive shift.</summary>
    public static double[] Wave(int[] bits, double rateBd, double sampleRate, bool inverted = false, double drift = 0) =>
        BitSignals.Keyed(BitSignals.Levels(bits, oneIsPositive: inverted), rateBd, sampleRate, 0.25, drift);

    private static void Push(List<int> bits, uint word)
    {
        for (int b = 31; b >= 0; b--)
        {
            bits.Add((int)(word >> b & 1));
        }
    }
}

/// <summary>Digital squelch: the 23-bit Golay word of a code, sent over and over, lowest bit first at 134.4 bit/s.</summary>
internal static class DigitalSquelchSignal
{
    public static int Word(string octal)
    {
        int code = octal.Aggregate(0, static (v, c) => v * 8 + (c - '0'));
        int data = code | 0x800;
        int remainder = data << 11;
        for (int bit = 22; bit >= 11; bit--)
        {
            if ((remainder >> bit & 1) == 1)
            {
                remainder ^= 0xC75 << (bit - 11);
            }
        }

        return (remainder & 0x7FF) << 12 | data;
    }

    public static double[] Wave(string octal, double seconds, double sampleRate, bool inverted = false, double drift = 0)
    {
        int word = Word(octal);
        int[] bits = [.. Enumerable.Range(0, (int)Math.Ceiling(seconds * 134.4)).Select(k => word >> (k % 23) & 1)];
        return BitSignals.Keyed(BitSignals.Levels(bits, oneIsPositive: !inverted), 134.4, sampleRate, 0.4, drift);
    }
}

/// <summary>AX.25 frames over HDLC: invented calls, made octet by octet.</summary>
internal static class PacketSignal
{
    public static byte[] Frame(string to, string from, string text)
    {
        List<byte> octets = [];
        foreach ((string call, bool last) in new[] { (to, false), (from, true) })
        {
            foreach (char c in call.PadRight(6)[..6])
            {
                octets.Add((byte)(c << 1));
            }

            octets.Add((byte)(0x60 | (last ? 1 : 0)));
        }

        octets.Add(0x03);
        octets.Add(0xF0);
        octets.AddRange(System.Text.Encoding.ASCII.GetBytes(text));
        int check = Check(octets);
        octets.Add((byte)(check & 0xFF));
        octets.Add((byte)(check >> 8));
        return [.. octets];
    }

    /// <summary>The HDLC check sequence, bit by bit.</summary>
    public static int Check(IEnumerable<byte> octets)
    {
        int register = 0xFFFF;
        foreach (byte octet in octets)
        {
            for (int b = 0; b < 8; b++)
            {
                int feedback = (register ^ octet >> b) & 1;
                register >>= 1;
                if (feedback == 1)
                {
                    register ^= 0x8408;
                }
            }
        }

        return register ^ 0xFFFF;
    }

    /// <summary>Flags, frames with stuffed zeros, flags; before the line code.</summary>
    public static int[] Bits(IReadOnlyList<byte[]> frames, int leadFlags = 40, int betweenFlags = 2, int tailFlags = 3)
    {
        List<int> bits = [];
        Flags(bits, leadFlags);
        for (int f = 0; f < frames.Count; f++)
        {
            int ones = 0;
            foreach (byte octet in frames[f])
            {
                for (int b = 0; b < 8; b++)
                {
                    int bit = octet >> b & 1;
                    bits.Add(bit);
                    ones = bit == 1 ? ones + 1 : 0;
                    if (ones == 5)
                    {
                        bits.Add(0);
                        ones = 0;
                    }
                }
            }

            Flags(bits, f == frames.Count - 1 ? tailFlags : betweenFlags);
        }

        return [.. bits];
    }

    public static int[] Nrzi(int[] bits)
    {
        int level = 0;
        int[] line = new int[bits.Length];
        for (int i = 0; i < bits.Length; i++)
        {
            level = bits[i] == 0 ? 1 - level : level;
            line[i] = level;
        }

        return line;
    }

    /// <summary>The self-synchronising scrambler 1 + x^12 + x^17.</summary>
    public static int[] Scrambled(int[] bits)
    {
        int[] sent = new int[bits.Length];
        for (int i = 0; i < bits.Length; i++)
        {
            sent[i] = bits[i] ^ (i >= 12 ? sent[i - 12] : 0) ^ (i >= 17 ? sent[i - 17] : 0);
        }

        return sent;
    }

    /// <summary>Audio tones 1,200 (mark) and 2,200 Hz (space) at 1,200 Bd, phase continuous.</summary>
    public static double[] Afsk(int[] bits, double sampleRate, double drift = 0)
    {
        int[] line = Nrzi(bits);
        double rate = 1_200 * (1 + drift);
        double[] x = new double[(int)Math.Round(bits.Length / rate * sampleRate)];
        double phase = 0;
        for (int n = 0; n < x.Length; n++)
        {
            int k = Math.Min(bits.Length - 1, (int)(n / sampleRate * rate));
            phase += 2 * Math.PI * (line[k] == 1 ? 1_200 : 2_200) / sampleRate;
            x[n] = Math.Sin(phase);
        }

        return x;
    }

    /// <summary>The scrambled baseband of 9,600 Bd (or another rate).</summary>
    public static double[] Direct(int[] bits, double sampleRate, double rateBd = 9_600, double drift = 0) =>
        BitSignals.Shaped(BitSignals.Levels(Scrambled(Nrzi(bits)), true), rateBd, sampleRate, 0.5, drift);

    private static void Flags(List<int> bits, int count)
    {
        for (int i = 0; i < count; i++)
        {
            bits.AddRange([0, 1, 1, 1, 1, 1, 1, 0]);
        }
    }
}
