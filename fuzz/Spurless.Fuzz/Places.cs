namespace Spurless.Fuzz;

/// <summary>Places in the checked-out repository.</summary>
internal static class Places
{
    /// <summary>The folder that holds the solution.</summary>
    public static string Root { get; } = Find();

    /// <summary>A file or folder under the root.</summary>
    public static string Of(params string[] parts) => Path.Combine([Root, .. parts]);

    /// <summary>Where a run keeps what it made: git passes it over.</summary>
    public static string Kept(params string[] parts) => Path.Combine([Root, ".spurless", "fuzz", .. parts]);

    private static string Find()
    {
        for (DirectoryInfo? at = new(AppContext.BaseDirectory); at is not null; at = at.Parent)
        {
            if (File.Exists(Path.Combine(at.FullName, "Spurless.slnx")))
            {
                return at.FullName;
            }
        }

        throw new InvalidOperationException($"No Spurless.slnx above {AppContext.BaseDirectory}.");
    }
}
