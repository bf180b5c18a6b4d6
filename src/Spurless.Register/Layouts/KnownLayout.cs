namespace Spurless.Register.Layouts;

/// <summary>A register whose open files are known.</summary>
public enum KnownLayout
{
    /// <summary>United States: the FCC's Universal Licensing System.</summary>
    FccUls,

    /// <summary>Canada: ISED's licence extract TAFL.</summary>
    IsedTafl,

    /// <summary>Australia: ACMA's Register of Radiocommunications Licences.</summary>
    AcmaRrl,

    /// <summary>United Kingdom: Ofcom's Wireless Telegraphy Register.</summary>
    OfcomWtr,
}

/// <summary>The known registers in words.</summary>
public static class KnownLayouts
{
    private static readonly (string Word, string Title, string Example)[] Texts =
    [
        ("fcc-uls", "FCC ULS", "HD.dat, LO.dat, AN.dat, FR.dat or EM.dat"), ("ised-tafl", "ISED TAFL", "TAFL_LTAF.csv"),
        ("acma-rrl", "ACMA RRL", "device_details.csv, site.csv, licence.csv or antenna.csv"), ("ofcom-wtr", "Ofcom WTR", "WTR.csv"),
    ];

    /// <summary>All of them.</summary>
    public static IReadOnlyList<KnownLayout> All { get; } = Enum.GetValues<KnownLayout>();

    /// <summary>Its name in databases, results and commands, such as <c>fcc-uls</c>.</summary>
    public static string Word(this KnownLayout layout) => Texts[(int)layout].Word;

    /// <summary>Its name for people, such as 'FCC ULS'.</summary>
    public static string Title(this KnownLayout layout) => Texts[(int)layout].Title;

    /// <summary>What its files are called.</summary>
    public static string FileNames(this KnownLayout layout) => Texts[(int)layout].Example;

    /// <summary>Reads one from its word.</summary>
    /// <param name="text">Such as <c>fcc-uls</c>; case and blanks round it don't matter.</param>
    /// <param name="layout">The register.</param>
    /// <param name="problem">What to write instead.</param>
    /// <returns>Whether it is one.</returns>
    public static bool TryParse(string text, out KnownLayout layout, out string problem)
    {
        ArgumentNullException.ThrowIfNull(text);
        int at = Array.FindIndex(Texts, t => t.Word.Equals(text.Trim(), StringComparison.OrdinalIgnoreCase));
        layout = (KnownLayout)Math.Max(0, at);
        problem = at >= 0
            ? ""
            : $"'{text.Trim()}' is no register whose layout is known; write {string.Join(", ", Texts.Select(static t => t.Word))}";
        return at >= 0;
    }
}
