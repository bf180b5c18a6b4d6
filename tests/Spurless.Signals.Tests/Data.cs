namespace Spurless.Signals.Tests;

/// <summary>Finds the files of tests/data from wherever the tests run.</summary>
internal static class Data
{
    public static string Path(params string[] parts)
    {
        string? folder = AppContext.BaseDirectory;
        while (folder is not null && !Directory.Exists(System.IO.Path.Combine(folder, "tests", "data")))
        {
            folder = System.IO.Path.GetDirectoryName(folder);
        }

        return System.IO.Path.Combine([folder ?? throw new DirectoryNotFoundException("tests/data"), "tests", "data", .. parts]);
    }
}
