using System.Globalization;
using Spurless.Radio.Paths;
using Spurless.Radio.Quantities;

namespace Spurless.Register.Records;

/// <summary>One frequency of one licence at one place, as the register's files say it. What they don't say is null, never zero.</summary>
public sealed record RegisterRecord
{
    /// <summary>Which register: <c>fcc-uls</c>, <c>ised-tafl</c>, <c>acma-rrl</c>, <c>ofcom-wtr</c>, or the name of a mapping
    /// file.</summary>
    public required string Register { get; init; }

    /// <summary>The licence's number as the register writes it; empty where it gives none.</summary>
    public required string Licence { get; init; }

    /// <summary>Call sign, or null.</summary>
    public string? CallSign { get; init; }

    /// <summary>Radio service, or null.</summary>
    public string? Service { get; init; }

    /// <summary>Class of station as the register writes it, or null.</summary>
    public string? StationClass { get; init; }

    /// <summary>Whether it transmits; else it is a receiver.</summary>
    public required bool Transmits { get; init; }

    /// <summary>Assigned frequency, or a block's lower edge, in hertz.</summary>
    public required long FrequencyHz { get; init; }

    /// <summary>Upper edge of a block in hertz; null where one frequency is assigned.</summary>
    public long? UpperEdgeHz { get; init; }

    /// <summary>The widest emission designator, or null.</summary>
    public string? Emission { get; init; }

    /// <summary>Bandwidth in hertz: of the emission, else the channel's width in the record, else null.</summary>
    public long? BandwidthHz { get; init; }

    /// <summary>Radiated power over an isotropic antenna in dBm, or null.</summary>
    public double? EirpDbm { get; init; }

    /// <summary>Height of the antenna over ground in metres, or null.</summary>
    public double? HeightM { get; init; }

    /// <summary>Height of the ground over sea level in metres, or null.</summary>
    public double? GroundM { get; init; }

    /// <summary>Main direction in degrees from north, or null.</summary>
    public double? AzimuthDegrees { get; init; }

    /// <summary>Half-power beamwidth in degrees, or null.</summary>
    public double? BeamwidthDegrees { get; init; }

    /// <summary>Where it stands.</summary>
    public required GeoPoint Place { get; init; }

    /// <summary>What was assumed.</summary>
    public RecordNotes Notes { get; init; }

    /// <summary>Which of several records of one licence on one frequency this is, from 1, in the order of the register's file.</summary>
    public int Ordinal { get; init; } = 1;

    /// <summary>The record's number in the database.</summary>
    public long Id { get; init; }

    /// <summary>The name it has in a site file: <c>CALLSIGN 450.4125 MHz</c>, the licence where there is no call; a second place gets <c>
    /// (2)</c>.</summary>
    public string Name
    {
        get
        {
            string who = CallSign is { Length: > 0 } call ? call : Licence.Length > 0 ? Licence : Register;
            // In megahertz whatever the size, exact to the hertz.
            string name = string.Create(CultureInfo.InvariantCulture, $"{who} {MegahertzText.Of(FrequencyHz, 0, 6)} MHz");
            return Ordinal > 1 ? string.Create(CultureInfo.InvariantCulture, $"{name} ({Ordinal})") : name;
        }
    }
}
