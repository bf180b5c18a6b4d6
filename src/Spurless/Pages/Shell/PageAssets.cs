using System.Collections.Frozen;
using System.Security.Cryptography;
using System.Text;
using Microsoft.Net.Http.Headers;
using Spurless.Drawing.Plotting;
using Spurless.Drawing.Typefaces;

namespace Spurless.Pages.Shell;

/// <summary>
/// The few files that pages load. They lie inside the assembly, so that the program works from any folder and as a single file.
/// </summary>
internal static class PageAssets
{
    private static readonly FrozenDictionary<string, string> Types = new Dictionary<string, string>
    {
        ["blazor.web.js"] = "text/javascript",
        ["shell.js"] = "text/javascript",
        ["study.js"] = "text/javascript",
        ["listen.js"] = "text/javascript",
        ["marks.js"] = "text/javascript",
        ["mask.js"] = "text/javascript",
        ["shell.css"] = "text/css",
        ["files.css"] = "text/css",
        ["pages.css"] = "text/css",
        ["frame.css"] = "text/css",
        ["drawing.css"] = "text/css",
        ["typefaces.css"] = "text/css",
    }.ToFrozenDictionary();

    /// <summary>Serves them under <c>/assets/</c>; a browser keeps each until its text changes.</summary>
    public static void Map(IEndpointRouteBuilder routes) => routes.MapGet("/assets/{name}", static (string name, HttpContext context) =>
    {
        if (TypefaceStyles.Files.FirstOrDefault(f => f.Name == name) is { } face)
        {
            return Answer(face.Bytes(), "font/woff2", context);
        }

        return Types.TryGetValue(name, out string? type)
            ? Answer(
                name switch
                {
                    "drawing.css" => Encoding.UTF8.GetBytes(DrawingStyles.Css),
                    "typefaces.css" => Encoding.UTF8.GetBytes(TypefaceStyles.Linked),
                    _ => Resource(name),
                },
                $"{type}; charset=utf-8",
                context)
            : Results.NotFound();
    });

    private static IResult Answer(byte[] bytes, string type, HttpContext context)
    {
        context.Response.Headers.CacheControl = "no-cache";
        EntityTagHeaderValue tag = new($"\"{Convert.ToHexStringLower(SHA256.HashData(bytes).AsSpan(0, 12))}\"");
        return Results.Bytes(bytes, type, entityTag: tag);
    }

    private static byte[] Resource(string name)
    {
        using Stream stream = typeof(PageAssets).Assembly.GetManifestResourceStream($"pages/{name}")
            ?? throw new InvalidOperationException($"The resource {name} is missing from the assembly.");
        using MemoryStream memory = new();
        stream.CopyTo(memory);
        return memory.ToArray();
    }
}
