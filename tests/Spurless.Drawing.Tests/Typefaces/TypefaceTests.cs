using Spurless.Drawing.Plotting;
using Spurless.Drawing.Typefaces;

namespace Spurless.Drawing.Tests.Typefaces;

/// <summary>The two typefaces that travel with reports and pages, and the widths that pictures are laid out with.</summary>
public class TypefaceTests
{
    // The order: WOFF2, five faces, under 120 kB together.
    [Fact]
    public void Files_are_five_woff2_faces_under_120_kB_together()
    {
        Assert.Equal(5, TypefaceStyles.Files.Count);
        Assert.All(TypefaceStyles.Files, static f => Assert.Equal("wOF2"u8, f.Bytes().AsSpan(0, 4)));
        Assert.InRange(TypefaceStyles.Files.Sum(static f => f.Bytes().Length), 50_000, 119_999);
    }

    [Fact]
    public void Styles_name_each_face_once_and_the_embedded_ones_ask_for_nothing()
    {
        foreach (TypefaceFile face in TypefaceStyles.Files)
        {
            Assert.Contains(Convert.ToBase64String(face.Bytes()), TypefaceStyles.Embedded, StringComparison.Ordinal);
            Assert.Contains($"url({face.Name})", TypefaceStyles.Linked, StringComparison.Ordinal);
        }

        Assert.DoesNotContain("url(f", TypefaceStyles.Embedded, StringComparison.Ordinal);
        Assert.DoesNotContain("url(t", TypefaceStyles.Embedded, StringComparison.Ordinal);
        Assert.Equal(5, TypefaceStyles.Embedded.Split("@font-face").Length - 1);
        Assert.Equal(3, TypefaceStyles.OfPictures.Split("@font-face").Length - 1);
    }

    [Fact]
    public void Licence_lies_in_the_assembly_and_the_reserved_name_is_not_used()
    {
        using Stream stream = typeof(TypefaceFile).Assembly.GetManifestResourceStream("Spurless.Drawing.Typefaces.OFL.txt")!;
        using StreamReader reader = new(stream);
        string licence = reader.ReadToEnd();
        Assert.Contains("SIL OPEN FONT LICENSE Version 1.1", licence, StringComparison.Ordinal);
        Assert.Contains("Adobe", licence, StringComparison.Ordinal);
        // OFL 1.1, condition 3: no modified version may use the reserved name.
        Assert.All(TypefaceStyles.Files, static f => Assert.DoesNotContain("Source", f.Family, StringComparison.Ordinal));
    }

    // Figures of a column stand under each other, signs included.
    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void Width_digits_and_signs_are_all_alike(bool bold)
    {
        double zero = TextWidth.Of("0", 1000, bold);
        Assert.All("123456789+\u2212\u00D7\u00B1=", c => Assert.Equal(zero, TextWidth.Of(c.ToString(), 1000, bold)));
    }

    // Letters of the trade, of the program's own words, and of names anywhere in Europe that is written in Latin letters.
    [Fact]
    public void Width_letters_in_use_are_in_every_face()
    {
        const string Letters = "ABCXYZabcxyz0189.,;:!?'\"()[]{}<>/\\|@#$%&*+-=_~^` "
            + "\u00A0\u202F\u2009\u2212\u00D7\u00B1\u00B0\u00B5\u03BC\u03A9\u03BB"
            + "\u2026\u2019\u2018\u201C\u201D\u2013\u2014\u25B8\u25C2\u2192\u2190\u2191\u2193\u2264\u2265\u221E\u2032\u2033"
            + "äöüßÄÖÜéèêçñåøæłŁśźżőűčřšžýďťňđğıİşțŵŷ";
        foreach ((char First, short[] Widths)[] face in ((char, short[])[][])[
            TypefaceWidths.Figures, TypefaceWidths.FiguresSemibold, TypefaceWidths.Text, TypefaceWidths.TextSemibold,
            TypefaceWidths.TextItalic])
        {
            Assert.Equal("", string.Concat(Letters.Where(c => !Array.Exists(face, r => c >= r.First && c < r.First + r.Widths.Length))));
        }
    }

    // Source: the advance widths of Source Sans 3 regular, in its metrics: zero 497, space 200, of 1000 units, here on an em of 940.
    [Fact]
    public void Width_of_a_line_is_the_sum_of_its_advances() =>
        Assert.Equal(((3 * 529) + 213) * 11 / 1000.0, TextWidth.Of("00 0", 11), 3);

    [Fact]
    public void Width_unknown_letter_counts_a_whole_em() => Assert.Equal(22, TextWidth.Of("\u6E2C\u5B9A", 11));
}
