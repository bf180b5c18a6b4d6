using Spurless.Register.Reading;
using Spurless.Register.Records;

namespace Spurless.Register.Layouts.FccUls;

/// <summary>The frequency rows.</summary>
internal sealed class UlsRowReader(Stream stream, UlsTables tables) : IRowReader
{
    private readonly RecordReader _reader = new(stream, RecordShape.Piped("FR", 29));

    public long Line => _reader.Line;

    public long BytesRead => stream.Position;

    public void Dispose() => stream.Dispose();

    public bool TryRead()
    {
        while (_reader.TryRead())
        {
            // A stray piece of a line that belongs to no record is none.
            if (_reader.IsBegun)
            {
                return true;
            }
        }

        return false;
    }

    public RejectReason Parse(ParsedRecord to)
    {
        RecordReader row = _reader;
        to.Clear("fcc-uls");
        foreach (int field in (ReadOnlySpan<int>)[1, 6, 7, 10, 11, 26])
        {
            to.Identify(row[field]);
        }

        to.CloseKey();
        if (!row.IsWhole || ColumnText.Whole(row[1]) is not { } system)
        {
            return RejectReason.Malformed;
        }

        if (!tables.Licences.TryGetValue(system, out UlsTables.Licence licence))
        {
            return RejectReason.NoLicenceRecord;
        }

        if (!licence.InForce)
        {
            return RejectReason.NotInForce;
        }

        if (StationClasses.IsMobile(row[8]))
        {
            return RejectReason.Mobile;
        }

        to.FrequencyHz = ColumnText.Hertz(row[10], 1e6);
        if (to.FrequencyHz == 0)
        {
            return RejectReason.NoFrequency;
        }

        int location = ColumnText.Whole(row[6]) ?? -1;
        if (!tables.Locations.TryGetValue(new UlsTables.LocationKey(system, location), out UlsTables.Location place))
        {
            return RejectReason.NoPosition;
        }

        (to.LatitudeDegrees, to.LongitudeDegrees, to.GroundM) = (place.Latitude, place.Longitude, Known(place.GroundM));
        string call = row[4].IsEmpty ? tables.Texts[licence.CallSign] : ColumnText.Text(row[4]);
        (to.Licence, to.CallSign) = (call, call.Length > 0 ? call : null);
        to.Service = licence.Service == 0 ? null : tables.Texts[licence.Service];
        to.StationClass = ColumnText.TextOrNull(row[8]);
        to.Expires = licence.ExpiresDay > 0 ? DateOnly.FromDayNumber(licence.ExpiresDay) : null;
        to.Notes |= StationClasses.Notes(row[8]);
        long upper = ColumnText.Hertz(row[11], 1e6);
        to.UpperEdgeHz = upper > to.FrequencyHz ? upper : null;
        Radiated(to, system, location, row);
        return RejectReason.None;
    }

    public string RejectText() => ColumnText.Text(_reader.Raw);

    private void Radiated(ParsedRecord to, int system, int location, RecordReader row)
    {
        int number = ColumnText.Whole(row[7]) ?? -1;
        bool known = tables.Antennas.TryGetValue(new UlsTables.AntennaKey(system, location, number), out UlsTables.Antenna antenna);
        if (known)
        {
            to.HeightM = Known(antenna.HeightM);
            to.SetBeam(Known(antenna.Azimuth), Known(antenna.Beamwidth));
        }

        if (tables.Emissions.TryGetValue(new UlsTables.EmissionKey(system, location, number, to.FrequencyHz),
            out (long Millihertz, int Text) emission))
        {
            to.Emission = tables.Texts[emission.Text];
        }

        to.SetBandwidth(to.UpperEdgeHz is { } upper ? upper - to.FrequencyHz : 0);
        to.SetPower(
            ColumnText.NotZero(row[20]), Dbm(row[16]), Dbm(row[15]), known ? Known(antenna.Gain) : null, known
                ? Known(antenna.LineLossDb) : null);
        to.Notes |= to.HeightM is null ? RecordNotes.NoHeight : RecordNotes.None;
    }

    private static double? Known(float value) => float.IsNaN(value) ? null : (double)(decimal)value;

    /// <summary>Watts as dBm; 0 W is a power that is not given.</summary>
    private static double? Dbm(ReadOnlySpan<byte> watts) => ColumnText.Number(watts) is { } w && w > 0 ? (10 * Math.Log10(w)) + 30 : null;
}
