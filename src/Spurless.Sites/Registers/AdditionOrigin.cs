namespace Spurless.Sites.Registers;

/// <summary>Where an emitter comes from that is written into a site file. The comment beside its name is made above.</summary>
public abstract record AdditionOrigin
{
    private AdditionOrigin()
    {
    }

    /// <summary>A survey measured it.</summary>
    public sealed record Survey : AdditionOrigin
    {
        /// <summary>The raster that it was put on, in hertz; null where none fits.</summary>
        public required long? RasterHz { get; init; }

        /// <summary>Whether it is narrower than could be seen.</summary>
        public required bool IsNarrow { get; init; }

        /// <summary>Whether its level is known.</summary>
        public required bool HasLevel { get; init; }

        /// <summary>What it may be by the register, likeliest first: name and licence of each.</summary>
        public IReadOnlyList<(string Name, string Licence)> MayBe { get; init; } = [];
    }

    /// <summary>A register has it.</summary>
    /// <param name="Register">Which.</param>
    /// <param name="Licence">The licence's number; empty where there is none.</param>
    /// <param name="Heard">What a survey knows of it.</param>
    /// <param name="AssumedWidthHz">The bandwidth that was assumed, in hertz; null where the register says one.</param>
    public sealed record Licensed(string Register, string Licence, HeardInSurvey Heard, long? AssumedWidthHz) : AdditionOrigin;
}

/// <summary>What a survey knows of a licensed transmitter.</summary>
public enum HeardInSurvey
{
    /// <summary>Nothing: it was not asked, or did not hear it.</summary>
    No,

    /// <summary>It was heard; its level is not known.</summary>
    Heard,

    /// <summary>Its level was measured.</summary>
    Measured,
}
