using Spurless.Drawing.Words;
using Spurless.Sites.Chains;

namespace Spurless.Reports.Html;

/// <summary>Words that reports of several subjects share.</summary>
internal static class ReportWords
{
    /// <summary>The last part of a file's name: the whole stands beside its checksum.</summary>
    public static string FileName(string name) => name[(name.LastIndexOfAny(['/', '\\']) + 1)..];

    /// <summary>Between which figures a rejection lies with mismatched ends: <c>11.0 to 26.0</c>; empty where it is not known.</summary>
    public static string Band(FilterRejection? rejection) => rejection is { LowDb: { } low, HighDb: { } high }
        ? $"{Figures.Db(low, Typography.Fine)} to {Figures.Db(high, Typography.Fine)}"
        : "";
}
