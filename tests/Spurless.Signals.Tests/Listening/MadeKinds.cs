using Spurless.Signals.Recognition;
using Spurless.Signals.Tests.Making;

namespace Spurless.Signals.Tests.Listening;

/// <summary>
/// Random recordings of each kind: figures, rate, channel and signal to noise by the seed (n of README.md beside the modulator: 1000 n).
/// </summary>
internal static class MadeKinds
{
    public const double StartS = 1.5;

    private static readonly double[] _rates = [8_000, 11_025, 16_000, 22_050, 44_100, 48_000];

    /// <summary>The kinds that are made, each with those that may stand beside it.</summary>
    public static readonly SignalKind[] All =
    [
        SignalKind.Pocsag, SignalKind.Afsk1200, SignalKind.Fsk9600, SignalKind.Ctcss, SignalKind.Dcs, SignalKind.Dtmf, SignalKind.TwoTone,
            SignalKind.Morse,
        SignalKind.Voice, SignalKind.Carrier, SignalKind.Tone, SignalKind.TwoLevelFsk, SignalKind.FourLevelFsk, SignalKind.Hum,
            SignalKind.Comb, SignalKind.Noise,
    ];

    /// <summary>A recording of a kind: its samples at 16 bits in a WAV.</summary>
    /// <param name="kind">The kind.</param>
    /// <param name="number">Number of the recording, from 1.</param>
    /// <param name="snrDb">Signal to noise in 300 to 3,400 Hz (squelch tones and codes: of a voice's usual level, 12 dB over theirs); null
    /// for 14 to 34 dB.</param>
    public static byte[] Make(SignalKind kind, int number, double? snrDb = null)
    {
        int seed = 1_000 * number + (int)kind;
        Random random = new(seed);
        double rate = kind switch
        {
            SignalKind.Fsk9600 or SignalKind.FourLevelFsk => random.Next(2) == 0 ? 44_100 : 48_000,
            SignalKind.TwoLevelFsk => _rates[random.Next(3, 6)],
            _ => _rates[random.Next(_rates.Length)],
        };
        double[] signal = Signal(kind, random, rate, seed);
        double rms = Sound.Rms(signal);
        double gain = 0.1 / Math.Max(1e-9, rms) * (kind is SignalKind.Ctcss or SignalKind.Dcs ? 0.25 : 1);
        signal = [.. signal.Select(v => v * gain)];
        int channel = random.Next(4);
        bool flatOnly = kind is SignalKind.Fsk9600 or SignalKind.FourLevelFsk or SignalKind.Ctcss or SignalKind.Dcs or SignalKind.Hum
            or SignalKind.Carrier or SignalKind.TwoLevelFsk;
        signal = (flatOnly ? 0 : channel) switch
        {
            1 => Channels.DeEmphasis(signal, rate),
            2 => Channels.Speaker(signal, rate),
            3 => Channels.Clip(signal, 0.25),
            _ => signal,
        };
        Sound made = new(rate, StartS + signal.Length / rate + 1.5);
        double snr = snrDb ?? 14 + 20 * random.NextDouble();
        double noise = made.NoiseFor(kind == SignalKind.Carrier ? 0.004 : kind is SignalKind.Ctcss or SignalKind.Dcs ? 0.1
            : Sound.Rms(signal), snr);
        if (kind == SignalKind.Carrier)
        {
            made.Noise(0.12, seed + 1, 0, StartS).Noise(0.12, seed + 2, made.Seconds - 1.5).Noise(0.004, seed + 3);
        }
        else
        {
            made.Add(StartS, signal).Noise(noise, seed + 1);
        }

        return RecordingFiles.Wav(rate, 16, made.Samples);
    }

    /// <summary>A signal of a kind by itself at 48 kHz, its peak at 1: what a transmitter is modulated with.</summary>
    public static double[] Modulation(SignalKind kind, int number)
    {
        int seed = 1_000 * number + (int)kind;
        double[] signal = Signal(kind, new Random(seed), 48_000, seed);
        double peak = Math.Max(1e-9, signal.Max(Math.Abs));
        return [.. signal.Select(v => v / peak)];
    }

    /// <summary>The text of a modulation of Morse.</summary>
    public static string MorseText(int number)
    {
        Random random = new(1_000 * number + (int)SignalKind.Morse);
        random.NextDouble();
        random.NextDouble();
        return MorseText(random);
    }

    private static string MorseText(Random random) => "DE " + string.Concat(
        Enumerable.Range(0, random.Next(3, 7)).Select(_ => "ABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789"[random.Next(36)]));

    private static double[] Signal(SignalKind kind, Random random, double rate, int seed)
    {
        double seconds = 2.5 + 2 * random.NextDouble();
        double drift = (random.NextDouble() - 0.5) * 400e-6;
        switch (kind)
        {
            case SignalKind.Pocsag:
                double paging = new[] { 512.0, 1_200, 2_400 }[random.Next(3)];
                int[] page = PagingSignal.Bits([(random.Next(8, 2_000_000), random.Next(4), "INVENTED MESSAGE"),
                    (random.Next(8, 2_000_000), 3, "NO ONE IS CALLED")]);
                return PagingSignal.Wave(page, paging, rate, random.Next(2) == 0, drift);
            case SignalKind.Afsk1200:
                return PacketSignal.Afsk(PacketSignal.Bits([Frame(random), Frame(random), Frame(random)]), rate, drift);
            case SignalKind.Fsk9600:
                return PacketSignal.Direct(PacketSignal.Bits([Frame(random), Frame(random), Frame(random), Frame(random)], 150), rate,
                    9_600, drift);
            case SignalKind.Ctcss:
                double[] tones = Spurless.Signals.Recognition.Squelch.CtcssRecogniser.Tones;
                return ToneSignals.Tone(tones[random.Next(tones.Length)] * (1 + (random.NextDouble() - 0.5) * 0.006), seconds, rate);
            case SignalKind.Dcs:
                string[] codes = ["023", "025", "114", "162", "205", "243", "306", "411", "503", "624", "731", "754"];
                return DigitalSquelchSignal.Wave(codes[random.Next(codes.Length)], seconds, rate, random.Next(2) == 0, drift);
            case SignalKind.Dtmf:
                string digits = string.Concat(Enumerable.Range(0, random.Next(2, 12)).Select(_ => "123A456B789C*0#D"[random.Next(16)]));
                return ToneSignals.Dtmf(digits, rate, 0.06 + 0.06 * random.NextDouble(), 0.06, -3 + 6 * random.NextDouble());
            case SignalKind.TwoTone:
                double first = 350 + 1_000 * random.NextDouble();
                return ToneSignals.TwoTone(first, first * (1.1 + random.NextDouble()), rate, 0.8 + 0.4 * random.NextDouble(),
                    1.5 + 1.5 * random.NextDouble());
            case SignalKind.Morse:
                string text = MorseText(random);
                return ToneSignals.Morse(text, 10 + 18 * random.NextDouble(), 500 + 700 * random.NextDouble(), rate);
            case SignalKind.Voice:
                return SpeechSignal.Make(4 + 2 * random.NextDouble(), rate, seed, 90 + 130 * random.NextDouble());
            case SignalKind.Carrier:
                return new double[(int)(seconds * rate)];
            case SignalKind.Tone:
                return ToneSignals.Tone(350 + 2_300 * random.NextDouble(), seconds, rate);
            case SignalKind.TwoLevelFsk:
                double two = new[] { 300.0, 600, 1_200, 2_000, 2_400, 3_200, 4_800 }[random.Next(7)];
                return BitSignals.Keyed(BitSignals.Levels(BitSignals.RandomBits((int)(seconds * two), seed), true), two, rate, 0.3, drift);
            case SignalKind.FourLevelFsk:
                double four = new[] { 2_400.0, 3_600, 4_800 }[random.Next(3)];
                int[] bits = BitSignals.RandomBits(2 * (int)(seconds * four), seed);
                return BitSignals.Shaped([.. Enumerable.Range(0, bits.Length / 2)
                    .Select(i => (bits[2 * i] == 1 ? -1 : 1) * (bits[2 * i + 1] == 1 ? 1 : 1 / 3.0))], four, rate, 0.2, drift);
            case SignalKind.Hum:
                return ToneSignals.Hum((random.Next(2) == 0 ? 50 : 60) * (1 + (random.NextDouble() - 0.5) * 0.002), random.Next(4, 9),
                    seconds, rate);
            case SignalKind.Comb:
                return ToneSignals.Comb(130 + 400 * random.NextDouble(), random.Next(5, 9), seconds, rate, random.NextDouble() - 0.5);
            default:
                return ToneSignals.Arcing(random.Next(2) == 0 ? 50 : 60, seconds, rate, seed, 0.1 + 0.1 * random.NextDouble());
        }
    }

    private static byte[] Frame(Random random) =>
        PacketSignal.Frame("TEST0" + random.Next(10), "NOCALL",
            "an invented packet, and nothing else is in it; its number is " + random.Next(100_000));
}
