using Spurless.Radio.Quantities;

namespace Spurless.Radio.Noise;

/// <summary>The surroundings of an antenna, as ITU-R P.372 names them.</summary>
public enum NoiseSurroundings
{
    /// <summary>Not given: no external noise is counted, and the result says so.</summary>
    None,

    /// <summary>Quiet rural.</summary>
    QuietRural,

    /// <summary>Rural.</summary>
    Rural,

    /// <summary>Residential.</summary>
    Residential,

    /// <summary>City.</summary>
    City,

    /// <summary>Given by the user in dB over k T0.</summary>
    Given,
}

/// <summary>
/// The noise that an antenna picks up, in dB over k T0 B. The median man-made noise of ITU-R P.372 is <c>Fam = c - d lg f_MHz</c> with c, d
/// = 76.8, 27.7 (city), 72.5, 27.7 (residential), 67.2, 27.7 (rural), 53.6, 28.6 (quiet rural), for 0.3 to 250 MHz and a short lossless
/// vertical antenna. The constants are from memory; those of rural and quiet rural and the range were also seen in a public
/// implementation that names P.372-8 (secondary).
/// </summary>
public readonly record struct ExternalNoise
{
    private const string Example = "none, quiet rural, rural, residential, city, or dB over kT0 like 6 dB";

    private static readonly (NoiseSurroundings Surroundings, string Name, double C, double D)[] _classes =
    [
        (NoiseSurroundings.City, "city", 76.8, 27.7),
        (NoiseSurroundings.Residential, "residential", 72.5, 27.7),
        (NoiseSurroundings.Rural, "rural", 67.2, 27.7),
        (NoiseSurroundings.QuietRural, "quiet rural", 53.6, 28.6),
    ];

    private readonly double _givenDb;

    private ExternalNoise(NoiseSurroundings surroundings, double givenDb = 0) => (Surroundings, _givenDb) = (surroundings, givenDb);

    /// <summary>What was said of the surroundings.</summary>
    public NoiseSurroundings Surroundings { get; }

    /// <summary>Makes it from a named kind of surroundings.</summary>
    /// <exception cref="ArgumentOutOfRangeException"><see cref="NoiseSurroundings.Given"/>, which needs a figure.</exception>
    public static ExternalNoise Of(NoiseSurroundings surroundings) =>
        surroundings is >= NoiseSurroundings.None and < NoiseSurroundings.Given
        ? new(surroundings)
        : throw new ArgumentOutOfRangeException(nameof(surroundings), surroundings, "must be a named kind of surroundings");

    /// <summary>Makes it from dB over k T0.</summary>
    public static ExternalNoise FromDecibels(double overKt0Db) =>
        new(NoiseSurroundings.Given, QuantityText.Finite(overKt0Db, nameof(overKt0Db)));

    /// <summary>
    /// Reads <c>none</c>, <c>quiet rural</c>, <c>rural</c>, <c>residential</c>, <c>city</c> or dB over kT0 such as <c>6 dB</c>.
    /// </summary>
    /// <param name="text">The text as written.</param>
    /// <param name="value">The noise, where the text is right.</param>
    /// <param name="problem">Where it is not: what was found; what to write instead.</param>
    public static bool TryParse(string text, out ExternalNoise value, out string problem)
    {
        value = default;
        problem = "";
        string clean = UnitTable.Normalise(text ?? "");
        if (clean == "none")
        {
            return true;
        }

        foreach ((NoiseSurroundings surroundings, string name, _, _) in _classes)
        {
            if (clean == name)
            {
                value = new ExternalNoise(surroundings);
                return true;
            }
        }

        if (Decibels.TryParse(clean, out Decibels given, out problem))
        {
            value = new ExternalNoise(NoiseSurroundings.Given, given.Value);
            return true;
        }

        if (!NumberText.TryRead(clean, out _, out _))
        {
            problem = clean.Length == 0
                ? $"nothing stands here; write {Example}"
                : $"{UnitTable.Quoted(text)} is no kind of surroundings; write {Example}";
        }

        return false;
    }

    /// <summary>As <see cref="TryParse"/>, for texts that must be right.</summary>
    /// <exception cref="FormatException">The text is not external noise.</exception>
    public static ExternalNoise Parse(string text) =>
        TryParse(text, out ExternalNoise value, out string problem) ? value : throw QuantityText.Refused(problem);

    /// <summary>The noise at a frequency.</summary>
    /// <param name="frequencyHz">Frequency in hertz, above 0.</param>
    /// <returns>dB over k T0 B; null for none.</returns>
    /// <remarks>At 146 MHz 16.85, 12.55, 7.25 and -8.30 dB for city, residential, rural and quiet rural.</remarks>
    /// <exception cref="ArgumentOutOfRangeException">The frequency is not a finite number above 0.</exception>
    public double? OverKt0Db(double frequencyHz)
    {
        double megahertz = QuantityText.AboveZero(frequencyHz, nameof(frequencyHz)) / 1e6;
        switch (Surroundings)
        {
            case NoiseSurroundings.None:
                return null;
            case NoiseSurroundings.Given:
                return _givenDb;
            default:
                NoiseSurroundings surroundings = Surroundings;
                (_, _, double c, double d) = Array.Find(_classes, k => k.Surroundings == surroundings);
                return c - d * Math.Log10(megahertz);
        }
    }

    /// <summary>Whether a frequency lies outside the 0.3 to 250 MHz of the formula of named surroundings; never for a figure that was
    /// given.</summary>
    /// <param name="frequencyHz">Frequency in hertz, above 0.</param>
    public bool IsExtrapolatedAt(double frequencyHz) =>
        Surroundings is not (NoiseSurroundings.None or NoiseSurroundings.Given) && (frequencyHz is < 0.3e6 or > 250e6);

    /// <summary>As it is written; reads back to the same value.</summary>
    public override string ToString() => Surroundings switch
    {
        NoiseSurroundings.None => "none",
        NoiseSurroundings.QuietRural => "quiet rural",
        NoiseSurroundings.Given => QuantityText.Plain(_givenDb, "dB"),
        NoiseSurroundings.Rural => "rural",
        NoiseSurroundings.Residential => "residential",
        _ => "city",
    };
}
