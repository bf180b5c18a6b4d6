using System.Globalization;
using CsCheck;
using Spurless.Radio.Paths;
using Spurless.Register.Records;

namespace Spurless.Register.Tests.Layouts;

/// <summary>A station by chance, invented, in the figures that registers print: what every layout must give back as it was.</summary>
internal sealed record Station
{
    private static readonly string[] Designators =
        ["11K2F3E", "16K0F1D", "8K10F1E", "100HA1A", "2K80J3E", "6K00A3E", "20M0W7D", "1K20F2A", "1M25D7W", "304HF1B"];

    // Text as people enter it: separators, quotes, accents, a formula.
    private static readonly Gen<string> _text = Gen.Frequency<string>(
        (3, Gen.String[Gen.Char['A', 'Z'], 1, 8]),
        (1, Gen.OneOf("Land mobile, trunked", "say \"so\"", "T\u00FCrme", "=1+1", "a; b", "two  blanks", "\u6C34", "x|y")));

    public required string Licence { get; init; }

    public string? Call { get; init; }

    public string? Service { get; init; }

    public string? Emission { get; init; }

    public required bool Transmits { get; init; }

    public required long FrequencyHz { get; init; }

    public required long ChannelHz { get; init; }

    public required decimal Latitude { get; init; }

    public required decimal Longitude { get; init; }

    public decimal? Erp { get; init; }

    public decimal? Watts { get; init; }

    public decimal? Gain { get; init; }

    public decimal? Loss { get; init; }

    public decimal? Height { get; init; }

    public decimal? Ground { get; init; }

    public int? Azimuth { get; init; }

    public int? Beamwidth { get; init; }

    /// <summary>Up to 30 stations, each with a licence of its own.</summary>
    public static Gen<Station[]> Some { get; } = One().Array[1, 30].Select(static all =>
        all.Select(static (s, i) => s with { Licence = FormattableString.Invariant($"{s.Licence}{i}") }).ToArray());

    private static Gen<Station> One() =>
        from licence in Gen.String[Gen.Char['0', '9'], 1, 7]
        from call in Gen.String[Gen.Char['A', 'Z'], 3, 6].Null(0.3)
        from service in _text.Null(0.3)
        from emission in Gen.OneOf(Designators).Null(0.3)
        from transmits in Gen.Int[0, 3]
        from hertz in Gen.Long[1_000_000, 40_000_000_000]
        from channel in Gen.OneOf(0L, 6_250L, 12_500L, 25_000L, 200_000L)
        from latitude in Tenths(-899_999, 899_999, 4)
        from longitude in Tenths(-1_799_999, 1_799_999, 4)
        from powers in Gen.Select(
            Tenths(-300, 400, 1).Nullable(0.5), Tenths(1, 99_999, 2).Nullable(0.3), Tenths(-50, 300, 1).Nullable(0.4),
            Tenths(0, 90, 1).Nullable(0.5))
        from heights in Gen.Select(Tenths(0, 3_000, 1).Nullable(0.3), Tenths(-300, 30_000, 1).Nullable(0.3))
        from beam in Gen.Select(Gen.Int[0, 360].Nullable(0.3), Gen.Int[1, 360].Nullable(0.3))
        select new Station
        {
            Licence = licence,
            Call = call,
            Service = service,
            Emission = emission,
            Transmits = transmits > 0,
            FrequencyHz = hertz,
            ChannelHz = channel,
            Latitude = latitude,
            Longitude = longitude,
            Erp = powers.Item1,
            Watts = powers.Item2,
            Gain = powers.Item3,
            Loss = powers.Item4,
            Height = heights.Item1,
            Ground = heights.Item2,
            Azimuth = beam.Item1,
            Beamwidth = beam.Item2,
        };

    /// <summary>
    /// The record it must become, by what docs/formats/register.md says of every layout; the power is each layout's own matter.
    /// </summary>
    public RegisterRecord Record(string register) => new()
    {
        Register = register,
        Licence = Licence,
        CallSign = Call,
        Service = Service,
        Transmits = Transmits,
        FrequencyHz = FrequencyHz,
        Emission = Emission,
        BandwidthHz = Emission is { } designator ? Width(designator) : ChannelHz > 0 ? ChannelHz : null,
        HeightM = (double?)Height,
        GroundM = (double?)Ground,
        AzimuthDegrees = IsBeam ? Azimuth % 360 : null,
        BeamwidthDegrees = IsBeam ? Beamwidth : null,
        Place = GeoPoint.Of((double)Latitude, (double)Longitude),
        Notes = (Height is null ? RecordNotes.NoHeight : 0) | (Beamwidth is null && Azimuth > 0 ? RecordNotes.NoBeamwidth : 0),
    };

    /// <summary>
    /// Radiated power and where it comes from: EIRP, else ERP and 2.15 dB (the dipole's gain, ITU-R V.573), else the transmitter's with
    /// losses and gain, else with a dipole's; a receiver has none.
    /// </summary>
    public RegisterRecord Radiating(RegisterRecord record, double? eirpDbm, double? erpDbm, double? powerDbm, double? gainDbi,
        double lossDb) =>
        !Transmits ? record
        : eirpDbm is { } eirp ? record with { EirpDbm = eirp }
        : erpDbm is { } erp ? record with { EirpDbm = erp + 2.15, Notes = record.Notes | RecordNotes.FromErp }
        : powerDbm is not { } power ? record
        : gainDbi is { } gain ? record with { EirpDbm = power - lossDb + gain, Notes = record.Notes | RecordNotes.FromPower }
        : record with { EirpDbm = power - lossDb + 2.15, Notes = record.Notes | RecordNotes.GainAssumed };

    /// <summary>dBm of watts by the decibel's definition: ten times the logarithm of milliwatts.</summary>
    public static double? Dbm(decimal? watts) => watts is { } w ? 10 * Math.Log10((double)w * 1000) : null;

    /// <summary>Records that are alike in all they say; levels to a millionth of a decibel, and figures a register rounds.</summary>
    public static void Same(IReadOnlyList<RegisterRecord> expected, IReadOnlyList<RegisterRecord> actual)
    {
        Assert.Equal(expected.Count, actual.Count);
        for (int i = 0; i < expected.Count; i++)
        {
            RegisterRecord e = expected[i], a = actual[i] with { Id = 0 };
            Assert.Equal(e.EirpDbm is null, a.EirpDbm is null);
            Assert.Equal(e.EirpDbm ?? 0, a.EirpDbm ?? 0, 1e-6);
            Assert.Equal(e.Place.LatitudeDegrees, a.Place.LatitudeDegrees, 0.51e-7);
            Assert.Equal(e.Place.LongitudeDegrees, a.Place.LongitudeDegrees, 0.51e-7);
            Assert.Equal(e.HeightM ?? -1, a.HeightM ?? -1, 1e-9);
            Assert.Equal(e.GroundM ?? -9999, a.GroundM ?? -9999, 1e-9);
            Assert.Equal(e, a with { EirpDbm = e.EirpDbm, Place = e.Place, HeightM = e.HeightM, GroundM = e.GroundM });
        }
    }

    /// <summary>A cell as RFC 4180 has it: in quotes where it must be, quotes doubled.</summary>
    public static string Cell(string text, char separator) =>
        text.AsSpan().ContainsAny([separator, '"', '\n']) ? "\"" + text.Replace("\"", "\"\"", StringComparison.Ordinal) + "\"" : text;

    public static string Text(IFormattable? figure) => figure?.ToString(null, CultureInfo.InvariantCulture) ?? "";

    /// <summary>Megahertz, to the hertz.</summary>
    public static string Megahertz(long hertz) => (hertz / 1_000_000m).ToString(CultureInfo.InvariantCulture);

    private bool IsBeam => Azimuth is not null && Beamwidth is < 360;

    // ITU Radio Regulations, appendix 1: three figures and a letter in place of the decimal point.
    private static long Width(string designator)
    {
        string four = designator[..4];
        int at = four.IndexOfAny(['H', 'K', 'M', 'G']);
        decimal unit = four[at] switch { 'H' => 1, 'K' => 1e3m, 'M' => 1e6m, _ => 1e9m };
        return (long)(decimal.Parse(four.Replace(four[at], '.'), CultureInfo.InvariantCulture) * unit);
    }

    private static Gen<decimal> Tenths(int from, int to, int decimals) =>
        Gen.Int[from, to].Select(n => n / (decimal)Math.Pow(10, decimals));
}
