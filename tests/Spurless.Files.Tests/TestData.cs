namespace Spurless.Files.Tests;

/// <summary>Finds tests/data from wherever the tests run.</summary>
internal static class TestData
{
    public static string Path(params string[] parts)
    {
        DirectoryInfo? folder = new(AppContext.BaseDirectory);
        while (folder is not null && !File.Exists(System.IO.Path.Combine(folder.FullName, "Spurless.slnx")))
        {
            folder = folder.Parent;
        }

        return System.IO.Path.Combine(
            [folder?.FullName ?? throw new DirectoryNotFoundException("Spurless.slnx"), "tests", "data", .. parts]);
    }

    public static string Read(params string[] parts) => File.ReadAllText(Path(parts));
}
