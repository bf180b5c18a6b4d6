using System.Globalization;
using System.Text;

namespace Spurless.Sites.Tests.Studies.Oracle;

/// <summary>An emitter of a small site; all in the units of the site file.</summary>
internal sealed record SmallEmitter(string Name, long Hz, long WidthHz, string? Class, double Dbm)
{
    public bool NoiseLike { get; init; }

    /// <summary>Stated sigma of the level; null for the usual 2 dB of a measured one.</summary>
    public double? SigmaDb { get; init; }

    /// <summary>Share of time on air in percent.</summary>
    public int ActivityPercent { get; init; } = 100;
}

/// <summary>A small invented site by chance, of which both the site file and the plain arithmetic of a test are made.</summary>
internal sealed record SmallSite
{
    public long ChannelHz { get; init; } = 145_050_000;

    public int RasterHz { get; init; } = 12_500;

    public double NoiseFigureDb { get; init; } = 6;

    public double? ExternalDb { get; init; }

    /// <summary>Intercepts of the receiver by order, in dBm; those not there are filled in by rule.</summary>
    public required IReadOnlyDictionary<int, double> Receiver { get; init; }

    public double FeedlineDb { get; init; } = 1;

    /// <summary>Gain, noise figure and IIP3 of the amplifier; null for none.</summary>
    public (double GainDb, double NoiseFigureDb, double Iip3Dbm)? Amplifier { get; init; }

    /// <summary>Loss at a frequency in hertz; none for an empty list.</summary>
    public IReadOnlyList<(double Db, long Hz)> Selectivity { get; init; } = [];

    public double CommonSigmaDb { get; init; }

    public required IReadOnlyList<SmallEmitter> Emitters { get; init; }

    public IReadOnlyList<int[]> Exclusive { get; init; } = [];

    public (int Lowest, int Highest) Orders { get; init; } = (2, 5);

    public int Signals { get; init; } = 3;

    /// <summary>Report floor in dBm; null for 20 dB under noise, negative infinity for none.</summary>
    public double? FloorDbm { get; init; }

    /// <summary>A site by chance: the same for a seed.</summary>
    public static SmallSite Of(int seed)
    {
        Random random = new(seed);
        const long channel = 145_050_000;
        int emitters = random.Next(3, 6);
        List<SmallEmitter> all = [];
        for (int i = 0; i < emitters; i++)
        {
            long hz = random.Next(5) switch
            {
                // Low enough for a sum of two, far enough for a difference, or where 2 a - b is the channel.
                0 => 60_000_000 + (random.Next(200) * 12_500L),
                1 => 320_000_000 + (random.Next(400) * 25_000L),
                2 when all.Count > 0 => (2 * all[^1].Hz) - channel + (random.Next(-3, 4) * 1_000L),
                3 when all.Count > 1 => channel + all[^1].Hz - all[^2].Hz + (random.Next(-3, 4) * 1_000L),
                _ => 144_000_000 + (random.Next(1, 160) * 12_500L),
            };
            hz = hz is > 1_000_000 and < 900_000_000 && hz != channel ? hz : 151_000_000 + (i * 12_500L);
            (long width, string? kind) = random.Next(6) switch
            {
                0 => (0L, null),
                1 => (16_000L, "F3E"),
                2 => (16_000L, "F1D"),
                3 => (180_000L, "F8E"),
                4 => (9_000L, null),
                _ => (11_200L, "F3E"),
            };
            all.Add(new SmallEmitter($"e{i}", hz, width, kind, -(20 + random.Next(0, 300) / 10.0))
            {
                NoiseLike = random.Next(6) == 0,
                SigmaDb = random.Next(4) == 0 ? 1 + random.Next(8) : null,
                ActivityPercent = random.Next(3) == 0 ? random.Next(1, 101) : 100,
            });
        }

        Dictionary<int, double> receiver = new() { [3] = -10 + random.Next(15) };
        if (random.Next(2) == 0)
        {
            receiver[2] = 20 + random.Next(30);
        }

        if (random.Next(3) == 0)
        {
            receiver[5] = -8 + random.Next(12);
        }

        int lowest = random.Next(2, 4);
        return new SmallSite
        {
            RasterHz = random.Next(2) == 0 ? 12_500 : 25_000,
            NoiseFigureDb = random.Next(2, 12),
            ExternalDb = random.Next(3) == 0 ? random.Next(-3, 25) : null,
            Receiver = receiver,
            FeedlineDb = random.Next(0, 40) / 10.0 + 0.1,
            Amplifier = random.Next(2) == 0 ? (random.Next(8, 20), 1.5, random.Next(-10, 8)) : null,
            Selectivity = random.Next(2) == 0 ? [] : [(30, 60_000_000), (0, 145_000_000), (25, 160_000_000), (45, 470_000_000)],
            CommonSigmaDb = random.Next(3) == 0 ? 1.5 : 0,
            Emitters = all,
            Exclusive = random.Next(2) == 0 ? [] : [[0, 1], [1, 2]],
            Orders = (lowest, random.Next(lowest, emitters > 4 ? 6 : 8)),
            Signals = random.Next(1, 5),
            FloorDbm = random.Next(3) switch { 0 => null, 1 => double.NegativeInfinity, _ => -150 + random.Next(30) },
        };
    }

    /// <summary>The site file.</summary>
    public string Text()
    {
        StringBuilder text = new("spurless: 1\nsite: small, by chance\nreceivers:\n  - name: input\n");
        Add(text, $"    frequency: {Mega(ChannelHz)}\n    channel: {RasterHz / 1000.0} kHz\n    noise_figure: {NoiseFigureDb} dB\n");
        foreach ((int order, double dbm) in Receiver)
        {
            Add(text, $"    iip{order}: {dbm} dBm\n");
        }

        if (ExternalDb is { } external)
        {
            Add(text, $"    external_noise: {external} dB\n");
        }

        if (Selectivity.Count > 0)
        {
            Add(text, $"    selectivity: [{string.Join(", ", Selectivity.Select(static p => Inv($"{p.Db} dB at {Mega(p.Hz)}")))}]\n");
        }

        if (CommonSigmaDb > 0)
        {
            Add(text, $"    common_uncertainty: {CommonSigmaDb} dB\n");
        }

        Add(text, $"    chain:\n      - feedline: {{ loss: {FeedlineDb} dB at 145 MHz }}\n");
        if (Amplifier is { } amplifier)
        {
            Add(text, $"      - amplifier: {{ gain: {amplifier.GainDb} dB, noise_figure: {amplifier.NoiseFigureDb} dB, ");
            Add(text, $"iip3: {amplifier.Iip3Dbm} dBm }}\n      - attenuator: 2 dB\n");
        }

        text.Append("emitters:\n");
        foreach (SmallEmitter e in Emitters)
        {
            Add(text, $"  - {{ name: {e.Name}, frequency: {Mega(e.Hz)}, level: {e.Dbm} dBm, ");
            text.Append(e.Class is null ? Inv($"bandwidth: {e.WidthHz / 1000.0} kHz") : "emission: " + Designator(e.WidthHz) + e.Class);
            text.Append(e.NoiseLike ? ", noise_like: true" : "");
            text.Append(e.SigmaDb is { } sigma ? Inv($", uncertainty: {sigma} dB") : "");
            text.Append(e.ActivityPercent < 100 ? Inv($", activity: {e.ActivityPercent} %") : "").Append(" }\n");
        }

        if (Exclusive.Count > 0)
        {
            IEnumerable<string> groups = Exclusive.Select(g => $"[{string.Join(", ", g.Select(i => Emitters[i].Name))}]");
            Add(text, $"exclusive: [{string.Join(", ", groups)}]\n");
        }

        string floor = FloorDbm switch { null => "", double.NegativeInfinity => ", floor: none", { } f => Inv($", floor: {f} dBm") };
        Add(text, $"search: {{ orders: {Orders.Lowest}-{Orders.Highest}, signals: {Signals}{floor} }}\n");
        return text.ToString();
    }

    private static string Designator(long hz) => hz switch { 11_200 => "11K2", 16_000 => "16K0", 180_000 => "180K", _ => "9K00" };

    private static string Mega(long hz) => (hz / 1e6).ToString("0.0#####", CultureInfo.InvariantCulture) + " MHz";

    private static void Add(StringBuilder text, FormattableString more) => text.Append(Inv(more));

    private static string Inv(FormattableString text) => FormattableString.Invariant(text);
}
