using System.Globalization;
using System.Text;

namespace Spurless.Drawing.Typefaces;

/// <summary>
/// The two typefaces of reports and pages, a serif for what is said and a sans for what is read off, under the SIL Open Font License
/// (OFL.txt
/// beside the files): whatever a machine has installed, a text has the width that it was laid out with.
/// </summary>
public static class TypefaceStyles
{
    /// <summary>All faces.</summary>
    public static IReadOnlyList<TypefaceFile> Files { get; } =
    [
        new("figures-regular.woff2", "Spurless Figures", 400, IsItalic: false),
        new("figures-semibold.woff2", "Spurless Figures", 600, IsItalic: false),
        new("text-regular.woff2", "Spurless Text", 400, IsItalic: false),
        new("text-semibold.woff2", "Spurless Text", 600, IsItalic: false),
        new("text-italic.woff2", "Spurless Text", 400, IsItalic: true),
    ];

    /// <summary>Rules with the faces within them, for a file that asks for nothing.</summary>
    public static string Embedded { get; } = Rules(Files, static f => $"data:font/woff2;base64,{Convert.ToBase64String(f.Bytes())}");

    /// <summary>The same with the faces that pictures use only: a picture that stands by itself.</summary>
    public static string OfPictures { get; } = Rules(
        Files.Where(static f => f.Family == "Spurless Figures" || f.IsItalic),
        static f => $"data:font/woff2;base64,{Convert.ToBase64String(f.Bytes())}");

    /// <summary>Rules that ask for the faces beside the style sheet, for pages.</summary>
    public static string Linked { get; } = Rules(Files, static f => f.Name);

    // Nothing is shown in another face in the meantime: a page that changes its type under the reader's eyes jumps.
    private static string Rules(IEnumerable<TypefaceFile> files, Func<TypefaceFile, string> address)
    {
        StringBuilder css = new();
        foreach (TypefaceFile file in files)
        {
            css.Append(
                CultureInfo.InvariantCulture,
                $"@font-face {{ font-family: \"{file.Family}\"; font-weight: {file.Weight}; "
                    + $"font-style: {(file.IsItalic ? "italic" : "normal")}; font-display: block; "
                    + $"src: url({address(file)}) format(\"woff2\"); }}\n");
        }

        return css.ToString();
    }
}
