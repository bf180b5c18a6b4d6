using Spurless.Drawing.Maps;
using Spurless.Reports.Html;

namespace Spurless.Reports.Lists;

/// <summary>A column of a list.</summary>
/// <param name="Head">Its head.</param>
/// <param name="IsNumber">Whether figures stand in it, to the right.</param>
public sealed record ListColumn(string Head, bool IsNumber = false);

/// <summary>A table of a list's page.</summary>
/// <param name="Title">What stands over it.</param>
/// <param name="Columns">Its columns.</param>
/// <param name="Rows">Its rows, a cell a column.</param>
/// <param name="Note">What is to be said under it; null for nothing.</param>
public sealed record ListTable(
    string Title, IReadOnlyList<ListColumn> Columns, IReadOnlyList<IReadOnlyList<string>> Rows, string? Note = null);

/// <summary>Sentences under a head.</summary>
/// <param name="Title">The head.</param>
/// <param name="Sentences">The sentences.</param>
public sealed record ListNotes(string Title, IReadOnlyList<string> Sentences);

/// <summary>What a page that is mainly a list shows.</summary>
public sealed record ListView
{
    /// <summary>What kind of page it is, in a few words.</summary>
    public required string Kind { get; init; }

    /// <summary>Its title.</summary>
    public required string Title { get; init; }

    /// <summary>The answer in a sentence or two.</summary>
    public required string Lead { get; init; }

    /// <summary>A map; null for none.</summary>
    public AroundScene? Map { get; init; }

    /// <summary>The tables.</summary>
    public required IReadOnlyList<ListTable> Tables { get; init; }

    /// <summary>Sentences behind them.</summary>
    public IReadOnlyList<ListNotes> Notes { get; init; } = [];

    /// <summary>Where the method is described.</summary>
    public required string Method { get; init; }
}

/// <summary>Renders lists as self-contained pages.</summary>
public static class ListReport
{
    /// <summary>Renders one.</summary>
    /// <param name="view">What it shows.</param>
    /// <param name="context">When and by what it was made.</param>
    /// <returns>A complete HTML document: self-contained, without script, with a policy that forbids both.</returns>
    public static Task<string> RenderAsync(ListView view, ReportContext context) =>
        PageRenderer.RenderAsync<ListPage>(new Dictionary<string, object?>
        {
            [nameof(ListPage.View)] = view,
            [nameof(ListPage.Context)] = context,
        });
}
