namespace Spurless.Sites.Sources;

/// <summary>The kinds of files that users write or measure.</summary>
public enum FileKind
{
    /// <summary>None of them.</summary>
    Unknown,

    /// <summary><c>*.site.yaml</c>, head <c>spurless:</c>.</summary>
    Site,

    /// <summary><c>*.circuit.yaml</c>, head <c>spurless_circuit:</c>.</summary>
    Circuit,

    /// <summary><c>*.requirement.yaml</c>, head <c>spurless_requirement:</c>.</summary>
    Requirement,

    /// <summary>A receiver's own measurements: <c>*.receiver.yaml</c>, head <c>spurless_receiver:</c>.</summary>
    Receiver,

    /// <summary>A relay round a filter: <c>*.bypass.yaml</c>, head <c>spurless_bypass:</c>.</summary>
    Bypass,

    /// <summary>A measured one- or two-port, <c>*.s1p</c>, <c>*.s2p</c>.</summary>
    Touchstone,

    /// <summary><c>*.log.csv</c>: who was on the air when.</summary>
    ObservationLog,

    /// <summary>Any other <c>*.csv</c>: a table of emitters.</summary>
    EmitterTable,

    /// <summary>A <c>*.csv</c> with the head <c>frequency_hz</c>: a sweep of magnitudes. Told by what it holds, not by its name.</summary>
    SweepTable,

    /// <summary>A <c>*.csv</c> with the head <c>distance_km</c>: the ground along a path. Told by what it holds, not by its name.</summary>
    PathProfile,

    /// <summary>Elevation of the ground: <c>*.hgt</c>, the same as <c>*.hgt.zip</c>, GeoTIFF.</summary>
    Elevation,

    /// <summary>A sweep of a spectrum: <c>*.sweep.csv</c>, or a <c>*.csv</c> with the head <c>frequency_hz,level_dbm</c>.</summary>
    Spectrum,

    /// <summary>What the columns of a register's table mean: <c>*.columns.yaml</c>.</summary>
    RegisterColumns,

    /// <summary>A register's table that a mapping explains: <c>*.register.csv</c>.</summary>
    RegisterTable,

    /// <summary>A table of receivers with their places. Told by what it holds, not by its name.</summary>
    ReceiverTable,

    /// <summary>What parts of a band are for: heads <c>from</c>, <c>to</c>, <c>use</c>. Told by what it holds, not by its name.</summary>
    BandPlan,

    /// <summary>A recording: <c>*.wav</c>, or a SigMF recording by either of its files.</summary>
    Recording,
}
