using System.Security.Cryptography;
using System.Text;
using System.Text.Encodings.Web;
using System.Text.Unicode;
using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.Components.Web;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Logging.Abstractions;
using Spurless.Drawing.Plotting;
using Spurless.Drawing.Typefaces;

namespace Spurless.Reports.Html;

/// <summary>Renders a component as a self-contained page: one file, no script, no request, everything escaped by the renderer.</summary>
internal static class PageRenderer
{
    /// <summary>Renders a page component.</summary>
    public static async Task<string> RenderAsync<TComponent>(Dictionary<string, object?> parameters)
        where TComponent : IComponent
    {
        ServiceCollection services = new();
        // Signs and letters stay readable in the file; only what has a meaning in HTML is escaped.
        services.AddSingleton(HtmlEncoder.Create(UnicodeRanges.All));
        await using ServiceProvider provider = services.BuildServiceProvider();
        await using HtmlRenderer renderer = new(provider, NullLoggerFactory.Instance);
        return await renderer.Dispatcher.InvokeAsync(async () =>
        {
            var root = await renderer.RenderComponentAsync<TComponent>(ParameterView.FromDictionary(parameters));
            return root.ToHtmlString();
        });
    }

    /// <summary>The style sheet of a report with the foot of its sheets.</summary>
    /// <param name="foot">What stands at the foot of each printed sheet.</param>
    public static string Styles(string foot) =>
        TypefaceStyles.Embedded
            + DrawingStyles.Css
            + DrawingStyles.Resource(typeof(PageRenderer), "Spurless.Reports.Html.report.css").Replace(
                "\"{foot}\"", CssString(foot), StringComparison.Ordinal);

    /// <summary>The page's policy: nothing is loaded, nothing runs, only this very style sheet applies, and typefaces are those within
    /// it.</summary>
    /// <param name="styles">The text of the style element.</param>
    public static string Policy(string styles)
    {
        string hash = Convert.ToBase64String(SHA256.HashData(Encoding.UTF8.GetBytes(styles)));
        return $"default-src 'none'; style-src 'sha256-{hash}'; img-src data:; font-src data:; base-uri 'none'; form-action 'none'";
    }

    /// <summary>
    /// A text as a CSS string: every character that is not plain is written by its number, so that none can end the string or the element.
    /// </summary>
    internal static string CssString(string text)
    {
        StringBuilder css = new("\"");
        foreach (Rune rune in text.EnumerateRunes())
        {
            if (rune.IsAscii && (Rune.IsLetterOrDigit(rune) || rune.Value is ' ' or ',' or '.' or '-'))
            {
                css.Append(rune);
            }
            else
            {
                css.Append('\\').Append(rune.Value.ToString("x6", System.Globalization.CultureInfo.InvariantCulture));
            }
        }

        return css.Append('"').ToString();
    }
}
