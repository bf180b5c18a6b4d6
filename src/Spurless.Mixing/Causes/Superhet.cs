namespace Spurless.Mixing.Causes;

/// <summary>On which side of the signal an oscillator runs.</summary>
public enum Injection
{
    /// <summary>Under the signal.</summary>
    Low,

    /// <summary>Over the signal.</summary>
    High,
}

/// <summary>The frequency plan of a superheterodyne receiver with one or two conversions.</summary>
public sealed record Superhet
{
    /// <summary>The channel f_r in hertz.</summary>
    public required long FrequencyHz { get; init; }

    /// <summary>First intermediate frequency in hertz, above 0.</summary>
    public required long FirstIfHz { get; init; }

    /// <summary>Side of the first oscillator.</summary>
    public required Injection Injection { get; init; }

    /// <summary>Second intermediate frequency in hertz; null for one conversion.</summary>
    public long? SecondIfHz { get; init; }

    /// <summary>
    /// Side of the second oscillator, seen at the first intermediate frequency; null where not stated: both are looked at and marked.
    /// </summary>
    public Injection? SecondInjection { get; init; }

    /// <summary>The first oscillator in hertz: <c>|f_r - IF|</c> (low) or <c>f_r + IF</c> (high).</summary>
    public long FirstOscillatorHz => Oscillator(FrequencyHz, FirstIfHz, Injection);

    /// <summary>The second oscillator in hertz for a side.</summary>
    /// <param name="side">Side of it.</param>
    /// <returns>Hertz, or null for one conversion.</returns>
    public long? SecondOscillatorHz(Injection side) => SecondIfHz is { } second ? Oscillator(FirstIfHz, second, side) : null;

    /// <summary>The image of the first conversion in hertz: the other frequency that an IF away from the oscillator makes.</summary>
    public long ImageHz
    {
        get
        {
            long above = FirstOscillatorHz + FirstIfHz;
            return above == FrequencyHz ? Math.Abs(FirstOscillatorHz - FirstIfHz) : above;
        }
    }

    private static long Oscillator(long signal, long intermediate, Injection side) =>
        side == Injection.High ? signal + intermediate : Math.Abs(signal - intermediate);
}
