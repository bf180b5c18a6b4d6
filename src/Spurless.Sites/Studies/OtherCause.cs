using Spurless.Mixing.Causes;

namespace Spurless.Sites.Studies;

/// <summary>A cause of interference that is not a product on the channel.</summary>
/// <param name="Finding">What was worked out of it.</param>
/// <param name="Verdict">What it amounts to.</param>
public sealed record OtherCause(CauseFinding Finding, Verdict Verdict)
{
    /// <summary>One of the fixed words of the JSON format: <c>direct</c>, <c>transmitter_noise</c>, <c>blocking</c> ...</summary>
    public string Cause => Finding.Cause.Word();

    /// <summary>The emitter concerned, or null.</summary>
    public string? Emitter => Finding.Emitter;

    /// <summary>Level referred to the receiver's input, in dBm; null where unknown.</summary>
    public double? LevelDbm => Finding.LevelDbm;

    /// <summary>Level less noise floor, in dB; null where unknown, and for blocking, which stands over the blocking point.</summary>
    public double? OverNoiseDb => Finding.Cause == CauseKind.Blocking ? null : Finding.OverNoiseDb;

    /// <summary>Upper bound of a level that is not known, or not all of it, in dBm; null for none.</summary>
    public double? AtMostDbm => Finding.AtMostDbm;

    /// <summary>That bound less the noise floor, in dB.</summary>
    public double? AtMostOverNoiseDb => Finding.AtMostOverNoiseDb;

    /// <summary>Whether nothing is known of it but what is usual: it could matter, no more is said.</summary>
    public bool OnlyUsual => Finding.BoundByUsual && Isolation is null;

    /// <summary>Loss of sensitivity, in dB.</summary>
    public double? DesenseDb => Finding.DesenseDb;

    /// <summary>What was assumed.</summary>
    public IReadOnlyList<Assumption> Assumed => Finding.Assumed;

    /// <summary>Whose work a cure is.</summary>
    public CurePlace Cure => Finding.Cause.CuredAt();

    /// <summary>What is missing for a level.</summary>
    public IReadOnlyList<MissingInput> Missing => Finding.Missing;

    /// <summary>The stage that is overloaded, where there are several; else null.</summary>
    public string? Stage { get; init; }

    /// <summary>What our own transmitter needs of its duplexer and has; null but for its noise.</summary>
    public OwnIsolation? Isolation { get; init; }

    /// <summary>The strongest product on a response of the receiver; null but for that cause.</summary>
    public ProductFinding? Product { get; init; }

    /// <summary>How many more products lie on that response.</summary>
    public long MoreProducts { get; init; }
}

/// <summary>Isolation between our own transmitter and the receiver beside it, as it has to be and as it is.</summary>
/// <param name="TransmitHz">The transmitter's frequency in hertz.</param>
/// <param name="ReceiveHz">The receiver's frequency in hertz.</param>
/// <param name="Needs">What is needed at both, and what is there.</param>
public sealed record OwnIsolation(long TransmitHz, long ReceiveHz, DuplexerNeeds Needs);
