using System.Collections.Concurrent;
using System.Globalization;
using System.Text.RegularExpressions;
using Markdig;

namespace Spurless.Pages.Shell;

/// <summary>
/// The documentation that travels inside the program, as pages: read without a network. The texts are our own, so their HTML is trusted.
/// </summary>
internal static partial class HelpBook
{
    private static readonly MarkdownPipeline Pipeline = new MarkdownPipelineBuilder().UsePipeTables()
        .UseAutoIdentifiers(Markdig.Extensions.AutoIdentifiers.AutoIdentifierOptions.GitHub).Build();

    private static readonly ConcurrentDictionary<string, string?> Pages = new(StringComparer.Ordinal);

    /// <summary>A document's page as HTML; null where there is none of that name.</summary>
    /// <param name="name">Its name without ending, such as <c>words</c> or <c>method/coils</c>.</param>
    public static string? Html(string name) => Pages.GetOrAdd(name, static n => Text(n) is { } text ? Linked(Markdown.ToHtml(text,
        Pipeline), n) : null);

    /// <summary>A document's title: its first heading.</summary>
    public static string? Title(string name) => Text(name)?.Split('\n').FirstOrDefault(static l => l.StartsWith("# ",
        StringComparison.Ordinal))?[2..].Trim();

    /// <summary>Names of all documents.</summary>
    public static IReadOnlyList<string> Names { get; } =
    [
        .. typeof(HelpBook).Assembly.GetManifestResourceNames().Where(static n => n.StartsWith("docs/", StringComparison.Ordinal))
            .Select(static n => n["docs/".Length..^".md".Length].Replace('\\', '/')).Order(StringComparer.Ordinal),
    ];

    /// <summary>Where the words of a page of the program stand in the documentation.</summary>
    /// <param name="page">The first step of its address.</param>
    public static (string Words, string Address) About(string page) => page switch
    {
        "study" => ("How levels are computed", "/help/method/product-levels"),
        "ways" => ("How ways out are tried", "/help/method/cures"),
        "channels" => ("How channels are weighed", "/help/method/plan"),
        "newcomer" => ("How a newcomer is weighed", "/help/method/newcomer"),
        "evidence" => ("How evidence is weighed", "/help/method/evidence"),
        "bench" or "build" => ("Circuit files", "/help/formats/circuit-file"),
        "fit" => ("How a filter is traced", "/help/how-to#6-know-the-filter-in-your-hand"),
        "relay" => ("How a bypass relay is reckoned", "/help/method/bypass"),
        "receiver" => ("How a receiver is measured", "/help/method/receiver"),
        "design" or "tune" => ("How filters are designed", "/help/method/design"),
        "coil" => ("Formulas of coils", "/help/method/coils"),
        "table" => ("Tables of transmitters", "/help/pages#a-table-of-somebody-else"),
        "site" => ("Site files", "/help/formats/site-file"),
        "around" => ("Registers and sweeps", "/help/formats/register"),
        "listen" => ("How kinds are recognised", "/help/method/listen"),
        "report" => ("Ask, with the report in hand", "/help/how-to#8-ask-with-the-report-in-hand"),
        _ => ("What each page does", "/help/pages#what-each-page-does"),
    };

    private static string? Text(string name)
    {
        using Stream? stream = Names.Contains(name) ? typeof(HelpBook).Assembly.GetManifestResourceStream($"docs/{name}.md") : null;
        if (stream is null)
        {
            return null;
        }

        using StreamReader reader = new(stream);
        return reader.ReadToEnd();
    }

    // A document beside it leads to its page; what is no document of ours (the source, a picture) is told by its words alone.
    private static string Linked(string html, string name)
    {
        string beside = name.Contains('/', StringComparison.Ordinal) ? name[..(name.LastIndexOf('/') + 1)] : "";
        html = Link().Replace(html, m =>
        {
            string to = m.Groups[1].Value;
            if (to.StartsWith('#'))
            {
                return $"<a href=\"/help/{name}{to}\">{m.Groups[2].Value}</a>";
            }

            string[] parts = to.Split('#', 2);
            string path = new Uri(new Uri("http://docs/" + beside), parts[0]).AbsolutePath.TrimStart('/');
            string target = path.EndsWith(".md", StringComparison.Ordinal) ? path[..^3] : path + "README";
            return !to.Contains("://", StringComparison.Ordinal) && Names.Contains(target)
                ? $"<a href=\"/help/{target}{(parts.Length > 1 ? "#" + parts[1] : "")}\">{m.Groups[2].Value}</a>"
                : m.Groups[2].Value;
        });
        html = Image().Replace(html, static m => m.Groups[1].Value);

        // Wide tables and code scroll by touch and key.
        int table = 0;
        return Table().Replace(Style().Replace(html, ""), _ => string.Create(
                CultureInfo.InvariantCulture,
                $"<div class=\"roll\" role=\"region\" tabindex=\"0\" aria-label=\"Table {++table}\"><table class=\"ruled\">"))
            .Replace("</table>", "</table></div>", StringComparison.Ordinal)
            .Replace("<pre>", "<pre class=\"roll\" tabindex=\"0\">", StringComparison.Ordinal);
    }

    [GeneratedRegex("<table>", RegexOptions.CultureInvariant, 1000)]
    private static partial Regex Table();

    [GeneratedRegex("<a href=\"([^\"]*)\"[^>]*>(.*?)</a>", RegexOptions.Singleline | RegexOptions.CultureInvariant, 1000)]
    private static partial Regex Link();

    [GeneratedRegex("<img [^>]*alt=\"([^\"]*)\"[^>]*>", RegexOptions.CultureInvariant, 1000)]
    private static partial Regex Image();

    [GeneratedRegex(" style=\"[^\"]*\"", RegexOptions.CultureInvariant, 1000)]
    private static partial Regex Style();
}
