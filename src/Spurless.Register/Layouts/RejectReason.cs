namespace Spurless.Register.Layouts;

/// <summary>Why a row becomes no record: the first of these that applies.</summary>
public enum RejectReason
{
    /// <summary>It becomes one.</summary>
    None,

    /// <summary>Too few columns.</summary>
    Malformed,

    /// <summary>The licence it names has no record.</summary>
    NoLicenceRecord,

    /// <summary>The licence's status or date says that it is no longer in force.</summary>
    NotInForce,

    /// <summary>A mobile station: it stands nowhere.</summary>
    Mobile,

    /// <summary>No frequency.</summary>
    NoFrequency,

    /// <summary>No position, or an impossible one.</summary>
    NoPosition,

    /// <summary>The same record again.</summary>
    Duplicate,
}

/// <summary>The reasons in words, as results and reject files have them.</summary>
public static class RejectReasons
{
    private static readonly string[] Texts =
        ["", "malformed", "no licence record", "not in force", "mobile", "no frequency", "no position", "duplicate"];

    /// <summary>All reasons in the order in which they are asked.</summary>
    public static IReadOnlyList<RejectReason> All { get; } = [.. Enum.GetValues<RejectReason>().Where(static r => r != RejectReason.None)];

    /// <summary>A reason in words.</summary>
    public static string Word(this RejectReason reason) => Texts[(int)reason];
}
