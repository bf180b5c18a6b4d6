namespace Spurless.Browser.Browsing;

/// <summary>
/// A machine on which no typeface is installed: with <c>SPURLESS_NO_FONTS=1</c> the browser is shown a folder with one font file, made
/// for this
/// test, that has no letter in it. (With none at all this browser draws no page of anybody's.) Whatever a page does not bring along comes
/// out
/// as rows of boxes, and the widths that a layout took from an installed face go wrong.
/// </summary>
internal static class NoFonts
{
    public const string Variable = "SPURLESS_NO_FONTS";

    // Two glyphs: the box of a missing letter, one em wide, and the space.
    private const string Font = ""
            + "AAEAAAAKAIAAAwAgT1MvMkEXQe4AAAEoAAAAYGNtYXAADABzAAABkAAAADRnbHlmh9FX/AAAAcwAAAAaaGVhZCf9D5wAAACsAAAANmhoZWEHCg"
            + "OHAAAA5AAAACRobXR4BRQAZAAAAYgAAAAIbG9jYQANAA0AAAHEAAAABm1heHAABAAGAAABCAAAACBuYW1lo/pKHAAAAegAAABpcG9zdAAHAAAA"
            + "AAJUAAAAJgABAAAAAQAAY1SsnF8PPPUAAwPoAAAAAOJ/ZgAAAAAA4n9mAABkAAADhAK8AAAAAwACAAAAAAAAAAEAAAMg/zgAAAPoAGQAZAOEAA"
            + "EAAAAAAAAAAAAAAAAAAAACAAEAAAACAAQAAQAAAAAAAgAAAAAAAAAAAAAAAAAAAAAAAwKKAZAABQAEAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAA"
            + "AAAAAAAAAAAAAAABAAAAAAAAAAAAAAAAPz8/PwAAACAAIAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAgAAAD6ABkASwAAAAAAAIAAAADAAAAFA"
            + "ADAAEAAAAUAAQAIAAAAAQABAABAAAAIP//AAAAIP///+EAAQAAAAAAAAANAA0AAAABAGQAAAOEArwAAwAAMxEhEWQDIAK8/UQAAAAAAAAEADYA"
            + "AQAAAAAAAQAKAAAAAQAAAAAAAgAHAAoAAwABBAkAAQAUABEAAwABBAkAAgAOACVObyBMZXR0ZXJzUmVndWxhcgBOAG8AIABMAGUAdAB0AGUAcg"
            + "BzAFIAZQBnAHUAbABhAHIAAAAAAgAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAACAAAAAwAA";

    /// <summary>Whether the tests are to run so.</summary>
    public static bool AreAsked => Environment.GetEnvironmentVariable(Variable) == "1";

    /// <summary>The browser's environment: that of the tests, with the system's font configuration replaced.</summary>
    public static Dictionary<string, string> EnvironmentOf(string folder)
    {
        string fonts = Directory.CreateDirectory(Path.Combine(folder, "fonts")).FullName;
        File.WriteAllBytes(Path.Combine(fonts, "no-letters.ttf"), Convert.FromBase64String(Font));
        string file = Path.Combine(folder, "fonts.conf");
        File.WriteAllText(
            file,
            "<?xml version=\"1.0\"?><!DOCTYPE fontconfig SYSTEM \"fonts.dtd\"><fontconfig>"
                + $"<dir>{fonts}</dir><cachedir>{Path.Combine(folder, "cache")}</cachedir></fontconfig>");
        Dictionary<string, string> all = [];
        foreach (System.Collections.DictionaryEntry entry in Environment.GetEnvironmentVariables())
        {
            all[(string)entry.Key] = (string?)entry.Value ?? "";
        }

        all["FONTCONFIG_FILE"] = file;
        all["FONTCONFIG_PATH"] = folder;
        return all;
    }
}
