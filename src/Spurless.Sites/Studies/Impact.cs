namespace Spurless.Sites.Studies;

/// <summary>What a mixture does to who listens, the worst first: a person reads this where a program reads the verdict.</summary>
public enum Impact
{
    /// <summary>It opens the squelch: it is heard.</summary>
    OpensSquelch,

    /// <summary>It spoils the weakest wanted signal.</summary>
    SpoilsWanted,

    /// <summary>It raises the noise: weak signals are lost.</summary>
    CostsSensitivity,

    /// <summary>Nothing of it is heard.</summary>
    NotHeard,

    /// <summary>Its level is not known.</summary>
    NotKnown,
}
