using System.Globalization;
using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.Components.Rendering;

namespace Spurless.Reports.Html;

/// <summary>A heading whose level depends on whether a report has one receiver or several.</summary>
public sealed class Heading : ComponentBase
{
    /// <summary>2 to 6.</summary>
    [Parameter, EditorRequired]
    public int Level { get; set; }

    /// <summary>Its words.</summary>
    [Parameter, EditorRequired]
    public required string Text { get; set; }

    /// <inheritdoc/>
    protected override void BuildRenderTree(RenderTreeBuilder builder)
    {
        builder.OpenElement(0, "h" + Level.ToString(CultureInfo.InvariantCulture));
        builder.AddAttribute(1, "class", "part");
        builder.AddContent(2, Text);
        builder.CloseElement();
    }
}
