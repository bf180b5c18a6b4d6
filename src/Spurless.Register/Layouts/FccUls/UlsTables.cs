using System.Runtime.InteropServices;
using Spurless.Radio.Emissions;
using Spurless.Register.Reading;

namespace Spurless.Register.Layouts.FccUls;

/// <summary>What the frequency rows of the public access files refer to, each table by its key.</summary>
internal sealed class UlsTables
{
    /// <summary>A licence.</summary>
    public readonly record struct Licence(bool InForce, int CallSign, int Service, int ExpiresDay);

    /// <summary>A location of a licence.</summary>
    public readonly record struct LocationKey(int System, int Location);

    /// <summary>Where it is; NaN where it says nothing.</summary>
    public readonly record struct Location(double Latitude, double Longitude, float GroundM);

    /// <summary>An antenna at a location.</summary>
    public readonly record struct AntennaKey(int System, int Location, int Antenna);

    /// <summary>What is said of it; NaN where nothing is.</summary>
    public readonly record struct Antenna(float HeightM, float Gain, float Azimuth, float Beamwidth, float LineLossDb);

    /// <summary>A frequency of an antenna.</summary>
    public readonly record struct EmissionKey(int System, int Location, int Antenna, long FrequencyHz);

    public Dictionary<int, Licence> Licences { get; } = [];

    public Dictionary<LocationKey, Location> Locations { get; } = [];

    public Dictionary<AntennaKey, Antenna> Antennas { get; } = [];

    /// <summary>The widest emission of each frequency, as a number of the pool.</summary>
    public Dictionary<EmissionKey, (long Millihertz, int Text)> Emissions { get; } = [];

    public StringPool Texts { get; } = new();

    public void AddLicence(RecordReader row, ImportWatch watch)
    {
        if (ColumnText.Whole(row[1]) is not { } system)
        {
            return;
        }

        DateOnly? expires = ColumnText.Date(row[8], monthFirst: true);
        bool inForce = row[5].SequenceEqual("A"u8) && (expires is not { } day || day >= watch.AsOf);
        Licences[system] = new Licence(inForce, Texts.Add(row[4]), Texts.Add(row[6]), expires?.DayNumber ?? 0);
    }

    public void AddLocation(RecordReader row)
    {
        if (ColumnText.Whole(row[1]) is not { } system || ColumnText.Whole(row[8]) is not { } number)
        {
            return;
        }

        double latitude = ColumnText.Degrees(row[19], row[20], row[21], row[22]) ?? double.NaN;
        double longitude = ColumnText.Degrees(row[23], row[24], row[25], row[26]) ?? double.NaN;
        Locations[new LocationKey(system, number)] = new Location(latitude, longitude, Float(row[18]));
    }

    public void AddAntenna(RecordReader row)
    {
        // Here the antenna's number stands before the location's.
        if (ColumnText.Whole(row[1]) is { } system && ColumnText.Whole(row[6]) is { } antenna && ColumnText.Whole(row[7]) is { } location)
        {
            Antennas[new AntennaKey(system, location, antenna)] =
                new Antenna(Float(row[11]), Float(row[17]), Float(row[18]), Float(row[16]), Float(row[33]));
        }
    }

    public void AddEmission(RecordReader row)
    {
        if (ColumnText.Whole(row[1]) is not { } system || ColumnText.Whole(row[5]) is not { } location
            || ColumnText.Whole(row[6]) is not { } antenna || row[9].IsEmpty)
        {
            return;
        }

        int text = Texts.Add(row[9]);
        long width = Emission.TryParse(Texts[text], out Emission emission, out _) ? emission.BandwidthMillihertz : -1;
        ref (long Millihertz, int Text) widest = ref CollectionsMarshal.GetValueRefOrAddDefault(
            Emissions, new EmissionKey(system, location, antenna, ColumnText.Hertz(row[7], 1e6)), out bool known);
        if (!known || width > widest.Millihertz)
        {
            widest = (width, text);
        }
    }

    // Metres, decibels and degrees all lie far within: what does not is a slip of the pen, and not known.
    private static float Float(ReadOnlySpan<byte> field) =>
        ColumnText.Number(field) is { } value && Math.Abs(value) < 1e9 ? (float)value : float.NaN;
}
