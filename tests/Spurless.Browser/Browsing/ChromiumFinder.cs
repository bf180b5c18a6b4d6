namespace Spurless.Browser.Browsing;

/// <summary>Finds a browser: the environment's word first, then the search path.</summary>
internal static class ChromiumFinder
{
    public const string Variable = "SPURLESS_CHROMIUM";

    private static readonly string[] Names =
    [
        "chromium-headless-shell", "chromium", "chromium-browser", "google-chrome", "google-chrome-stable", "microsoft-edge", "chrome.exe",
        "msedge.exe",
    ];

    /// <summary>Path of an executable.</summary>
    /// <exception cref="InvalidOperationException">There is none; the message says how to get one.</exception>
    public static string Find(Func<string, string?> environment)
    {
        if (environment(Variable) is { Length: > 0 } named)
        {
            return File.Exists(named)
                ? named
                : throw new InvalidOperationException($"{Variable} names {named}, which is not a file; name a Chromium executable.");
        }

        string[] folders = (environment("PATH") ?? "").Split(Path.PathSeparator, StringSplitOptions.RemoveEmptyEntries);
        return folders.SelectMany(static f => Names.Select(n => Path.Combine(f, n))).FirstOrDefault(File.Exists)
            ?? throw new InvalidOperationException(
                $"No Chromium on the path. Install one ('apt-get install chromium' on Debian), "
                    + $"or set {Variable} to the executable of one.");
    }
}
