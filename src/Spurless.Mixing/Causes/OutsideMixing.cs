namespace Spurless.Mixing.Causes;

/// <summary>Mixing outside transmitters and receivers: a corroded joint, a fence, a tower clamp.</summary>
public static class OutsideMixing
{
    /// <summary>The one line that says it is possible.</summary>
    /// <param name="products">How many products can land on the channel at all, wherever they are made.</param>
    /// <returns>A finding without a level (nobody can predict it), with the observation that would tell; null where no product
    /// can.</returns>
    public static CauseFinding? Possible(long products) => products <= 0 ? null : new CauseFinding
    {
        Cause = CauseKind.Outside,
        Emitter = null,
        LevelDbm = null,
        OverNoiseDb = null,
        SigmaDb = null,
        Missing = [new MissingInput(MissingKind.OutsideLevel)],
    };
}
