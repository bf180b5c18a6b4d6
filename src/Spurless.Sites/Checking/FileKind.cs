namespace Spurless.Sites.Checking;

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

    /// <summary>A measured one- or two-port, <c>*.s1p</c>, <c>*.s2p</c>.</summary>
    Touchstone,

    /// <summary><c>*.log.csv</c>: who was on the air when.</summary>
    ObservationLog,

    /// <summary>Any other <c>*.csv</c>: a table of emitters.</summary>
    EmitterTable,

    /// <summary>A <c>*.csv</c> with the head <c>frequency_hz</c>: a sweep of magnitudes. Told by what it holds, not by its name.</summary>
    SweepTable,
}
