namespace Spurless.Mixing.Measurements;

/// <summary>
/// A figure in dB or dBm made of readings, which remembers whose errors are in it: of two figures made of one sensitivity, that
/// sensitivity's error is in both with its sign, so that it falls out of their difference and does not average away in their mean.
/// </summary>
/// <param name="Value">The figure in dB or dBm.</param>
/// <param name="Errors">Its errors, each source once. Sources are independent of one another: sigmas add in squares.</param>
public sealed record MeasuredFigure(double Value, IReadOnlyList<ErrorShare> Errors)
{
    /// <summary>One sigma in dB.</summary>
    public double SigmaDb => Math.Sqrt(Errors.Sum(static e => e.SigmaDb * e.SigmaDb));

    /// <summary>A figure without an error.</summary>
    public static MeasuredFigure Exact(double value) => new(value, []);

    /// <summary>A single reading.</summary>
    /// <param name="value">What was read, in dB or dBm.</param>
    /// <param name="source">The source of its error.</param>
    /// <param name="sigmaDb">One sigma, in dB.</param>
    public static MeasuredFigure Read(double value, int source, double sigmaDb) => new(value, [new ErrorShare(source, sigmaDb)]);

    /// <summary>This figure and another one so many times.</summary>
    /// <param name="other">The other.</param>
    /// <param name="times">Its weight, with sign. 3 dB known to 1 dB plus twice 5 dB known to 1 dB: 13 dB, sigma 2.24 dB.</param>
    public MeasuredFigure Plus(MeasuredFigure other, double times = 1)
    {
        ArgumentNullException.ThrowIfNull(other);
        SortedDictionary<int, double> shares = [];
        foreach (ErrorShare own in Errors)
        {
            shares[own.Source] = shares.GetValueOrDefault(own.Source) + own.SigmaDb;
        }

        foreach (ErrorShare added in other.Errors)
        {
            shares[added.Source] = shares.GetValueOrDefault(added.Source) + (times * added.SigmaDb);
        }

        return new MeasuredFigure(
            Value + (times * other.Value), [.. shares.Where(static s => s.Value != 0).Select(static s => new ErrorShare(s.Key, s.Value))]);
    }

    /// <summary>This figure plus a number that is known exactly.</summary>
    public MeasuredFigure Plus(double number) => this with { Value = Value + number };

    /// <summary>This figure so many times, its errors too.</summary>
    public MeasuredFigure Times(double factor) =>
        new(factor * Value, [.. Errors.Select(e => e with { SigmaDb = factor * e.SigmaDb })]);

    /// <summary>This figure with its errors so many times as great.</summary>
    public MeasuredFigure Widened(double factor) => this with { Errors = [.. Errors.Select(e => e with { SigmaDb = factor * e.SigmaDb })] };
}
