namespace Spurless.Tests.Common;

/// <summary>The files of tests/data, found from where the test runs.</summary>
internal static class TestData
{
    private static readonly string Root = FindRoot();

    public static string Path(string relative) => System.IO.Path.Combine(Root, relative);

    public static IEnumerable<string> Files(string folder) =>
        Directory.EnumerateFiles(Path(folder)).Select(f => System.IO.Path.GetFileName(f)).Order(StringComparer.Ordinal);

    private static string FindRoot()
    {
        for (DirectoryInfo? at = new(AppContext.BaseDirectory); at is not null; at = at.Parent)
        {
            string data = System.IO.Path.Combine(at.FullName, "tests", "data");
            if (Directory.Exists(data))
            {
                return data;
            }
        }

        throw new DirectoryNotFoundException("tests/data lies in no folder above the tests");
    }
}
