namespace Spurless.Browser.Hostile;

/// <summary>
/// Texts that are known to become script, markup, a request, a formula or a forged address where a program puts them somewhere as they
/// are. Each is of a kind that is common knowledge of the trade; the words are ours.
/// </summary>
internal static class HostileNames
{
    /// <summary>What a script of theirs would set.</summary>
    public const string Mark = "spurlessWasHit";

    /// <summary>All of them.</summary>
    public static readonly string[] All =
    [
        $"<script>window.{Mark}=1</script>",
        $"</script><script>window.{Mark}=1</script>",
        $"<img src=x onerror=window.{Mark}=1>",
        $"\"><img src=x onerror=window.{Mark}=1>",
        $"'><img src=x onerror=window.{Mark}=1>",
        $"\" onmouseover=\"window.{Mark}=1\" autofocus onfocus=\"window.{Mark}=1\" x=\"",
        $"' onmouseover='window.{Mark}=1' autofocus onfocus='window.{Mark}=1' x='",
        $"<svg onload=window.{Mark}=1>",
        $"<svg><script>window.{Mark}=1</script></svg>",
        $"</text></svg><img src=x onerror=window.{Mark}=1><svg><text>",
        $"]]><script>window.{Mark}=1</script><![CDATA[",
        $"<iframe srcdoc=\"<script>parent.{Mark}=1</script>\"></iframe>",
        $"<iframe src=javascript:parent.{Mark}=1></iframe>",
        $"<a href=\"javascript:window.{Mark}=1\">press</a>",
        $"javascript:window.{Mark}=1",
        $"data:text/html,<script>parent.{Mark}=1</script>",
        $"<details open ontoggle=window.{Mark}=1>",
        $"<video><source onerror=window.{Mark}=1></video>",
        $"<input autofocus onfocus=window.{Mark}=1>",
        $"<math><mi xlink:href=\"javascript:window.{Mark}=1\">x</mi></math>",
        "<style>@import 'http://127.0.0.2/x';</style>",
        "<link rel=stylesheet href=//127.0.0.2/x>",
        "<img src=//127.0.0.2/x>",
        "<meta http-equiv=refresh content='0;url=//127.0.0.2/'>",
        "<base href=//127.0.0.2/>",
        "<form action=//127.0.0.2/><button>send</button></form>",
        "url(//127.0.0.2/x)",
        "}</style><style>body{background:url(//127.0.0.2/x)}",
        "<!--",
        "--><b>bold</b>",
        "<b>bold</b> & &lt;i&gt; &#60;u&#62;",
        "{{7*7}} ${7*7} @(7*7) #{7*7}",
        "=HYPERLINK(\"http://127.0.0.2/\";\"press\")",
        "=cmd|' /C calc'!A0",
        "+1+1",
        "-1+1+cmd|' /C calc'!A0",
        "@SUM(1;1)",
        "\uFF1D1\uFF0B1",
        "\u202Egpj.evil\u2066 \u0000-free \u200B\uFEFF",
        "a\tb;c,d\"e'f\\g`h%00%0d%0aSet-Cookie: x=y",
    ];

    /// <summary>A text as a scalar of a YAML file, whatever it holds.</summary>
    public static string Scalar(string text) => System.Text.Json.JsonSerializer.Serialize(text.Replace("\0", "", StringComparison.Ordinal));
}
