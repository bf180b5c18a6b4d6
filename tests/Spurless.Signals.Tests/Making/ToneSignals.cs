namespace Spurless.Signals.Tests.Making;

/// <summary>Tones and what is made of tones.</summary>
internal static class ToneSignals
{
    /// <summary>The digits' tones of ITU-T Q.23 (from memory), rows and columns.</summary>
    private static readonly double[] _rows = [697, 770, 852, 941];

    private static readonly double[] _columns = [1209, 1336, 1477, 1633];

    /// <summary>Morse of letters and figures after ITU-R M.1677-1 (from memory).</summary>
    private static readonly Dictionary<char, string> _morse = new()
    {
        ['A'] = ".-",
        ['B'] = "-...",
        ['C'] = "-.-.",
        ['D'] = "-..",
        ['E'] = ".",
        ['F'] = "..-.",
        ['G'] = "--.",
        ['H'] = "....",
        ['I'] = "..",
        ['J'] = ".---",
        ['K'] = "-.-",
        ['L'] = ".-..",
        ['M'] = "--",
        ['N'] = "-.",
        ['O'] = "---",
        ['P'] = ".--.",
        ['Q'] = "--.-",
        ['R'] = ".-.",
        ['S'] = "...",
        ['T'] = "-",
        ['U'] = "..-",
        ['V'] = "...-",
        ['W'] = ".--",
        ['X'] = "-..-",
        ['Y'] = "-.--",
        ['Z'] = "--..",
        ['0'] = "-----",
        ['1'] = ".----",
        ['2'] = "..---",
        ['3'] = "...--",
        ['4'] = "....-",
        ['5'] = ".....",
        ['6'] = "-....",
        ['7'] = "--...",
        ['8'] = "---..",
        ['9'] = "----.",
        ['/'] = "-..-.",
        ['?'] = "..--..",
    };

    public static double[] Tone(double hz, double seconds, double rate, double rampS = 0.003, double phase = 0)
    {
        double[] x = new double[(int)Math.Round(seconds * rate)];
        for (int n = 0; n < x.Length; n++)
        {
            double edge = Math.Min(1, Math.Min(n, x.Length - 1 - n) / Math.Max(1, rampS * rate));
            x[n] = edge * Math.Sin(phase + 2 * Math.PI * hz * n / rate);
        }

        return x;
    }

    public static double[] Dtmf(string digits, double rate, double onS = 0.08, double offS = 0.08, double twistDb = 0,
        double rowOff = 0, double columnOff = 0)
    {
        Sound sound = new(rate, digits.Length * (onS + offS));
        for (int i = 0; i < digits.Length; i++)
        {
            int key = "123A456B789C*0#D".IndexOf(digits[i], StringComparison.Ordinal);
            sound.Add(i * (onS + offS), Tone(_rows[key / 4] * (1 + rowOff), onS, rate), 0.5);
            sound.Add(i * (onS + offS), Tone(_columns[key % 4] * (1 + columnOff), onS, rate), 0.5 * Math.Pow(10, twistDb / 20));
        }

        return sound.Samples;
    }

    public static double[] TwoTone(double first, double second, double rate, double firstS = 1, double secondS = 3) =>
        [.. Tone(first, firstS, rate), .. Tone(second, secondS, rate)];

    /// <summary>When the key is down: pairs of start and length, in seconds.</summary>
    public static List<(double At, double For)> MorseKeying(string text, double wpm)
    {
        double dot = 1.2 / wpm;
        List<(double, double)> keying = [];
        double t = 0;
        foreach (string word in text.ToUpperInvariant().Split(' '))
        {
            foreach (char letter in word)
            {
                foreach (char element in _morse[letter])
                {
                    double length = element == '.' ? dot : 3 * dot;
                    keying.Add((t, length));
                    t += length + dot;
                }

                t += 2 * dot;
            }

            t += 4 * dot;
        }

        return keying;
    }

    public static double[] Morse(string text, double wpm, double pitch, double rate)
    {
        List<(double At, double For)> keying = MorseKeying(text, wpm);
        Sound sound = new(rate, keying[^1].At + keying[^1].For);
        foreach ((double at, double length) in keying)
        {
            sound.Add(at, Tone(pitch, length, rate, 0.004, 2 * Math.PI * pitch * at));
        }

        return sound.Samples;
    }

    /// <summary>Mains hum: the fundamental and harmonics falling by 1/n.</summary>
    public static double[] Hum(double mains, int harmonics, double seconds, double rate)
    {
        Sound sound = new(rate, seconds);
        for (int h = 1; h <= harmonics; h++)
        {
            sound.Add(0, Tone(mains * h, seconds, rate, 0, h), 1.0 / h);
        }

        return sound.Samples;
    }

    /// <summary>A comb of a switching supply: lines at multiples of a spacing, drifting together.</summary>
    public static double[] Comb(double spacing, int lines, double seconds, double rate, double driftHzPerS = 0)
    {
        double[] x = new double[(int)Math.Round(seconds * rate)];
        for (int n = 0; n < x.Length; n++)
        {
            double t = n / rate;
            double phase = 2 * Math.PI * (spacing * t + driftHzPerS * t * t / 2);
            for (int h = 1; h <= lines; h++)
            {
                x[n] += Math.Sin(h * phase + h * h) / lines;
            }
        }

        return x;
    }

    /// <summary>Arcing on a power line: bursts of short impulses at the crests of the mains, twice a period.</summary>
    public static double[] Arcing(double mains, double seconds, double rate, int seed, double dutyShare = 0.15)
    {
        Random random = new(seed);
        Gauss gauss = new(seed + 1);
        double[] x = new double[(int)Math.Round(seconds * rate)];
        for (int n = 0; n < x.Length; n++)
        {
            double into = n / rate * 2 * mains % 1;
            if (into < dutyShare && random.NextDouble() < 0.3)
            {
                x[n] = gauss.Next();
            }
        }

        return x;
    }
}

/// <summary>
/// Sound like speech: syllables at four to five a second, a pitch that moves, three formants, hissing consonants between, pauses between
/// phrases. No word is in it.
/// </summary>
internal static class SpeechSignal
{
    private static readonly double[][] _vowels = [
        [700, 1200, 2600], [300, 2200, 2900], [320, 800, 2400], [500, 1700, 2500], [450, 900, 2500]];

    public static double[] Make(double seconds, double rate, int seed, double pitch = 120, double pauseShare = 0.15)
    {
        Random random = new(seed);
        Gauss gauss = new(seed + 7);
        double[] x = new double[(int)Math.Round(seconds * rate)];
        double phase = 0;
        int n = 0;
        double[,] state = new double[3, 2];
        while (n < x.Length)
        {
            if (random.NextDouble() < pauseShare)
            {
                n += (int)(rate * (0.15 + 0.4 * random.NextDouble()));
                continue;
            }

            int consonant = (int)(rate * (0.03 + 0.06 * random.NextDouble()));
            double last = 0;
            for (int k = 0; k < consonant && n < x.Length; k++, n++)
            {
                double hiss = gauss.Next();
                x[n] += 0.08 * (hiss - 0.9 * last) * Math.Sin(Math.PI * k / consonant);
                last = hiss;
            }

            int vowel = (int)(rate * (0.09 + 0.16 * random.NextDouble()));
            double[] from = _vowels[random.Next(_vowels.Length)];
            double[] to = _vowels[random.Next(_vowels.Length)];
            double f0 = pitch * (0.85 + 0.35 * random.NextDouble());
            double slope = f0 * (random.NextDouble() - 0.6) * 0.8;
            for (int k = 0; k < vowel && n < x.Length; k++, n++)
            {
                double u = (double)k / vowel;
                double f = f0 + slope * k / rate;
                phase += f / rate;
                double glottis = phase >= 1 ? 1 : 0;
                phase -= Math.Floor(phase);
                double sum = 0;
                for (int m = 0; m < 3; m++)
                {
                    double centre = from[m] + (to[m] - from[m]) * u;
                    double r = Math.Exp(-Math.PI * (60 + 40 * m) / rate);
                    double y = glottis + 2 * r * Math.Cos(2 * Math.PI * centre / rate) * state[m, 0] - r * r * state[m, 1];
                    state[m, 1] = state[m, 0];
                    state[m, 0] = y;
                    sum += y * Math.Sin(2 * Math.PI * centre / rate) / (1 + m);
                }

                x[n] += sum * Math.Sin(Math.PI * Math.Min(1, 4 * Math.Min(u, 1 - u)) / 2);
            }
        }

        double rms = Sound.Rms(x);
        for (int i = 0; i < x.Length; i++)
        {
            x[i] *= 0.3 / rms;
        }

        return x;
    }
}
