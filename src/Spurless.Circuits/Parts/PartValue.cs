namespace Spurless.Circuits.Parts;

/// <summary>
/// A part's value in SI units: known, or unknown with the range in which a fit may look for it.
/// The default value is unknown without a range.
/// </summary>
public readonly record struct PartValue
{
    private PartValue(double? value, double? low, double? high) => (Value, Low, High) = (value, low, high);

    /// <summary>The value in SI units; null where it is unknown.</summary>
    public double? Value { get; }

    /// <summary>The least value an unknown may take; null where no range was stated.</summary>
    public double? Low { get; }

    /// <summary>The greatest value an unknown may take; null where no range was stated.</summary>
    public double? High { get; }

    /// <summary>Whether there is a value.</summary>
    public bool IsKnown => Value.HasValue;

    /// <summary>A known value.</summary>
    /// <param name="value">The value in SI units, finite.</param>
    public static PartValue Known(double value) => new(Finite(value, nameof(value)), null, null);

    /// <summary>An unknown value, without a range.</summary>
    public static PartValue Unknown() => default;

    /// <summary>An unknown value within a range.</summary>
    /// <param name="low">Least value in SI units, finite.</param>
    /// <param name="high">Greatest value in SI units, finite, not below <paramref name="low"/>.</param>
    public static PartValue Unknown(double low, double high)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(Finite(high, nameof(high)), Finite(low, nameof(low)));
        return new(null, low, high);
    }

    /// <summary>The value, where the caller has made sure that it is known.</summary>
    /// <exception cref="InvalidOperationException">The value is unknown.</exception>
    public double Require() => Value ?? throw new InvalidOperationException("The value is unknown.");

    private static double Finite(double value, string name) =>
        double.IsFinite(value) ? value : throw new ArgumentOutOfRangeException(name, "A part's value is a finite number.");
}
