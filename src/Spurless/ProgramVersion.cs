namespace Spurless;

/// <summary>The program's version: read here and nowhere else.</summary>
internal static class ProgramVersion
{
    /// <summary>Major, minor and patch, such as <c>0.1.0</c>.</summary>
    public static string Text { get; } = typeof(ProgramVersion).Assembly.GetName().Version!.ToString(3);
}
