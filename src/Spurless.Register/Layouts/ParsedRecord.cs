using System.Security.Cryptography;
using System.Text;
using Spurless.Radio.Emissions;
using Spurless.Register.Records;

namespace Spurless.Register.Layouts;

/// <summary>One row of a register as read, filled anew for each: what becomes a record, or why it does not.</summary>
internal sealed class ParsedRecord
{
    private readonly IncrementalHash _hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
    private readonly byte[] _digest = new byte[32];
    private readonly byte[] _key = new byte[16];

    public string Register { get; set; } = "";

    public bool Transmits { get; set; }

    public string Licence { get; set; } = "";

    public string? CallSign { get; set; }

    public string? Service { get; set; }

    public string? StationClass { get; set; }

    public long FrequencyHz { get; set; }

    public long? UpperEdgeHz { get; set; }

    public string? Emission { get; set; }

    public long? BandwidthHz { get; set; }

    public double? EirpDbm { get; set; }

    public double? HeightM { get; set; }

    public double? GroundM { get; set; }

    public double? AzimuthDegrees { get; set; }

    public double? BeamwidthDegrees { get; set; }

    public double? LatitudeDegrees { get; set; }

    public double? LongitudeDegrees { get; set; }

    public DateOnly? Expires { get; set; }

    public RecordNotes Notes { get; set; }

    /// <summary>Sixteen bytes that stand for the record's identity, however often it is imported.</summary>
    public byte[] Key => _key;

    /// <summary>Empties it.</summary>
    public void Clear(string register)
    {
        Register = register;
        Transmits = true;
        (Licence, CallSign, Service, StationClass, Emission) = ("", null, null, null, null);
        (FrequencyHz, UpperEdgeHz, BandwidthHz) = (0, null, null);
        (EirpDbm, HeightM, GroundM, AzimuthDegrees, BeamwidthDegrees, LatitudeDegrees, LongitudeDegrees) =
            (null, null, null, null, null, null, null);
        (Expires, Notes) = (null, RecordNotes.None);
        _hash.AppendData(Encoding.UTF8.GetBytes(register));
        _hash.AppendData("|"u8);
    }

    /// <summary>Adds a field to the identity.</summary>
    public void Identify(ReadOnlySpan<byte> field)
    {
        _hash.AppendData(field);
        _hash.AppendData("|"u8);
    }

    /// <summary>Closes the identity.</summary>
    public void CloseKey()
    {
        _hash.GetHashAndReset(_digest);
        _digest.AsSpan(0, 16).CopyTo(_key);
    }

    /// <summary>The emission's width, where it is a designator; else the channel's.</summary>
    public void SetBandwidth(long channelHz)
    {
        if (Emission is { } text && Radio.Emissions.Emission.TryParse(text, out Emission emission, out _))
        {
            BandwidthHz = emission.BandwidthHz;
        }
        else
        {
            BandwidthHz = channelHz > 0 ? channelHz : null;
        }
    }

    /// <summary>
    /// Radiated power by the first that is known of: EIRP; ERP and 2.15 dB; the transmitter's power with the antenna's gain, or with a
    /// dipole's.
    /// </summary>
    /// <param name="eirpDbm">EIRP in dBm.</param>
    /// <param name="erpDbm">ERP in dBm.</param>
    /// <param name="powerDbm">The transmitter's power in dBm.</param>
    /// <param name="gainDbi">The antenna's gain in dBi.</param>
    /// <param name="lossDb">Losses between them in dB.</param>
    public void SetPower(double? eirpDbm, double? erpDbm, double? powerDbm, double? gainDbi = null, double? lossDb = null)
    {
        if (eirpDbm is { } eirp)
        {
            EirpDbm = eirp;
        }
        else if (erpDbm is { } erp)
        {
            EirpDbm = erp + Radio.Quantities.AntennaGain.DipoleDbi;
            Notes |= RecordNotes.FromErp;
        }
        else if (powerDbm is { } power)
        {
            EirpDbm = power - (lossDb ?? 0) + (gainDbi ?? Radio.Quantities.AntennaGain.DipoleDbi);
            Notes |= gainDbi is null ? RecordNotes.GainAssumed : RecordNotes.FromPower;
        }
    }

    /// <summary>Main direction and beamwidth: only a beam narrower than all round has one.</summary>
    public void SetBeam(double? azimuth, double? beamwidth)
    {
        if (azimuth is not (>= 0 and <= 360) || beamwidth is >= 360)
        {
            return;
        }

        if (beamwidth is > 0)
        {
            (AzimuthDegrees, BeamwidthDegrees) = (azimuth.Value % 360, beamwidth);
        }
        else if (azimuth != 0)
        {
            Notes |= RecordNotes.NoBeamwidth;
        }
    }
}
