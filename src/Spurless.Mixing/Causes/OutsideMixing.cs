namespace Spurless.Mixing.Causes;

/// <summary>Mixing outside transmitters and receivers: a corroded joint, a fence, a tower clamp.</summary>
public static class OutsideMixing
{
    /// <summary>The one line that says it is possible.</summary>
    /// <param name="products">How many products can land on the channel at all, wherever they are made.</param>
    /// <returns>A finding without a level (nobody can predict it), with the observation that would tell; null where no product can.</returns>
    public static CauseFinding? Possible(long products) => products <= 0 ? null : new CauseFinding
    {
        Cause = CauseKind.Outside,
        Emitter = null,
        LevelDbm = null,
        OverNoiseDb = null,
        SigmaDb = null,
        Missing =
        [
            new MissingInput(
                "level of products made in joints, fences and clamps: not predictable",
                "put an attenuator in front of the receiver: what is on the air falls by its loss only; then see whether it changes with wind, rain or place, and seek it with a small loop"),
        ],
        Says = "The same mixtures can be made in a corroded joint, a fence or a clamp on the structure; no filter at the receiver removes those.",
    };
}
