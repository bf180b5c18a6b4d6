using Spurless.Mixing.Causes;
using Spurless.Sites.Studies;

namespace Spurless.Reports.Studies;

/// <summary>The fixed words of the JSON and CSV formats.</summary>
public static class StudyNames
{
    /// <summary>A verdict as the formats write it.</summary>
    public static string Of(Verdict verdict) => verdict switch
    {
        Verdict.Harmful => "harmful",
        Verdict.Marginal => "marginal",
        Verdict.Clear => "clear",
        _ => "unknown",
    };

    /// <summary>Whose work a cure is, as the formats write it.</summary>
    public static string Of(CurePlace place) => place switch
    {
        CurePlace.Receiver => "receiver",
        CurePlace.Transmitter => "transmitter",
        CurePlace.StructureOwner => "structure_owner",
        _ => "channel",
    };

    /// <summary>A mechanism as the formats write it.</summary>
    public static string Of(Mechanism mechanism) => mechanism switch
    {
        Mechanism.Transmitter => "transmitter",
        Mechanism.Outside => "outside",
        _ => "receiver",
    };
}
