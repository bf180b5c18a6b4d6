namespace Spurless.Sites.Tests;

/// <summary>Finds tests/data and the demo from wherever the tests run.</summary>
internal static class TestData
{
    public static string Path(params string[] parts) => InProject(["tests", "data", .. parts]);

    /// <summary>A file of the demo.</summary>
    public static string Demo(params string[] file) => InProject(["demo", .. file]);

    public static string Read(params string[] parts) => File.ReadAllText(Path(parts));

    private static string InProject(params string[] parts)
    {
        DirectoryInfo? folder = new(AppContext.BaseDirectory);
        while (folder is not null && !File.Exists(System.IO.Path.Combine(folder.FullName, "Spurless.slnx")))
        {
            folder = folder.Parent;
        }

        return System.IO.Path.Combine([folder?.FullName ?? throw new DirectoryNotFoundException("Spurless.slnx"), .. parts]);
    }
}
