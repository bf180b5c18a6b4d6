using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.Components.Rendering;
using Microsoft.AspNetCore.Components.Web;

namespace Spurless.Drawing.Plotting;

/// <summary>
/// Renders a <see cref="Scene"/> as SVG: the one drawing code of report and pages. Written in C# because a markup component may not hold
/// an SVG text element directly in a code block.
/// </summary>
public sealed class SceneView : ComponentBase
{
    private readonly Dictionary<string, (EventCallback<MouseEventArgs> Click, EventCallback<KeyboardEventArgs> Key)> _calls = new(
        StringComparer.Ordinal);

    /// <summary>The drawing.</summary>
    [Parameter, EditorRequired]
    public required Scene Scene { get; set; }

    /// <summary>Begins every id of this drawing; unique in the page.</summary>
    [Parameter, EditorRequired]
    public required string Id { get; set; }

    /// <summary>A class of the page's for the drawing as a whole.</summary>
    [Parameter]
    public string? Class { get; set; }

    /// <summary>Called with the target that was picked by click, Enter or space. Without it the drawing is a picture only.</summary>
    [Parameter]
    public EventCallback<string> OnPick { get; set; }

    /// <summary>
    /// Whether the keys reach each mark. False where a list beside the drawing does that: forty stops would stand between the keys and all
    /// that follows, and the focus of a click would stay behind on whatever the next drawing puts there.
    /// </summary>
    [Parameter]
    public bool ByKey { get; set; } = true;

    /// <summary>Whether the drawing is one stop for the keys, with the arrows going from mark to mark inside it.</summary>
    [Parameter]
    public bool OneStop { get; set; }

    /// <inheritdoc/>
    protected override void BuildRenderTree(RenderTreeBuilder builder)
    {
        bool operable = OnPick.HasDelegate;
        builder.OpenElement(0, "svg");
        builder.AddAttribute(1, "class", (Class is null ? "pic" : $"pic {Class}") + (OneStop && operable ? " onestop" : ""));
        builder.AddAttribute(2, "viewBox", $"0 0 {SvgPath.Number(Scene.Width)} {SvgPath.Number(Scene.Height)}");
        builder.AddAttribute(3, "width", SvgPath.Number(Scene.Width));
        builder.AddAttribute(4, "height", SvgPath.Number(Scene.Height));
        builder.AddAttribute(5, "role", operable ? "group" : "img");
        builder.AddAttribute(6, "aria-labelledby", $"{Id}-t {Id}-d");
        builder.AddMarkupContent(7, "\n");
        builder.OpenElement(8, "title");
        builder.AddAttribute(9, "id", $"{Id}-t");
        builder.AddContent(10, Scene.Title);
        builder.CloseElement();
        builder.OpenElement(11, "desc");
        builder.AddAttribute(12, "id", $"{Id}-d");
        builder.AddContent(13, Scene.Description);
        builder.CloseElement();
        if (Scene.Items.Any(static i => i is SceneRect { Hatched: true }))
        {
            builder.AddMarkupContent(14,
                $"<defs><pattern id=\"{System.Net.WebUtility.HtmlEncode(Id)}-h\" width=\"5\" height=\"5\" "
                    + $"patternUnits=\"userSpaceOnUse\" patternTransform=\"rotate(45)\"><path "
                        + $"class=\"hatch\" d=\"M0 0V5\"/></pattern></defs>\n");
        }

        builder.OpenRegion(15);
        string? stop = operable && OneStop ? Stop() : null;
        for (int i = 0; i < Scene.Items.Count; i++)
        {
            SceneItem item = Scene.Items[i];
            if (operable && item.Target is { } target)
            {
                // What follows of the same target is one thing to pick; its words take the pointer too, the mark itself has the name.
                int end = i + 1;
                while ((item.Reach is not null || item.Middle is not null) && end < Scene.Items.Count && Scene.Items[end].Target == target
                    && Scene.Items[end] is SceneText == item is SceneText)
                {
                    end++;
                }

                Operable(builder, i, end, target, OneStop ? target == stop : null);
                i = end - 1;
            }
            else
            {
                Item(builder, item);
            }

            builder.AddMarkupContent(100, "\n");
        }

        builder.CloseRegion();
        builder.CloseElement();
    }

    // The selected mark is where the keys come in, else the first.
    private string? Stop() => Scene.Items.Any(i => i.Target is not null && i.Target == Scene.Selected)
        ? Scene.Selected
        : Scene.Items.FirstOrDefault(static i => i.Target is not null && i is not SceneText)?.Target;

    private void Operable(RenderTreeBuilder builder, int from, int to, string target, bool? stop)
    {
        builder.OpenElement(30, "g");
        bool isMark = Scene.Items[from] is not SceneText;
        builder.AddAttribute(31, "class", isMark ? "pick" : "pick says");
        if (isMark)
        {
            builder.AddAttribute(32, "role", "button");
            builder.AddAttribute(33, "tabindex", !ByKey ? null : stop == false ? "-1" : "0");
            builder.AddAttribute(34, "aria-pressed", target == Scene.Selected ? "true" : "false");
            builder.AddAttribute(35, "aria-label", Scene.TargetNames.TryGetValue(target, out string? name) ? name : target);
        }

        // The same callbacks at every drawing: a moving picture does not hang new ones on every mark.
        if (!_calls.TryGetValue(target, out (EventCallback<MouseEventArgs> Click, EventCallback<KeyboardEventArgs> Key) calls))
        {
            calls = (
                EventCallback.Factory.Create<MouseEventArgs>(this, () => OnPick.InvokeAsync(target)),
                EventCallback.Factory.Create<KeyboardEventArgs>(
                    this, e => e.Key is "Enter" or " " ? OnPick.InvokeAsync(target) : Task.CompletedTask));
            _calls[target] = calls;
        }

        builder.AddAttribute(36, "onclick", calls.Click);
        builder.AddAttribute(37, "data-target", target);
        if (ByKey && isMark)
        {
            builder.AddAttribute(38, "onkeydown", calls.Key);
        }

        builder.OpenRegion(44);
        for (int i = from; i < to; i++)
        {
            if (Scene.Items[i].Middle is { } middle)
            {
                builder.OpenElement(39, "circle");
                builder.AddAttribute(40, "class", "hit");
                builder.AddAttribute(41, "cx", SvgPath.Number(middle.X));
                builder.AddAttribute(42, "cy", SvgPath.Number(middle.Y));
                builder.AddAttribute(43, "r", "12");
                builder.CloseElement();
            }

            if (Scene.Items[i].Reach is { } reach)
            {
                Item(builder, new SceneRect("hit", reach));
            }

            Item(builder, Scene.Items[i]);
        }

        builder.CloseRegion();
        builder.CloseElement();
    }

    private void Item(RenderTreeBuilder builder, SceneItem item)
    {
        switch (item)
        {
            case ScenePath path:
                builder.OpenElement(50, "path");
                builder.AddAttribute(51, "class", Style(path));
                builder.AddAttribute(52, "d", path.Data);
                break;
            case SceneCircle circle:
                builder.OpenElement(60, "circle");
                builder.AddAttribute(61, "class", Style(circle));
                builder.AddAttribute(62, "cx", SvgPath.Number(circle.X));
                builder.AddAttribute(63, "cy", SvgPath.Number(circle.Y));
                builder.AddAttribute(64, "r", SvgPath.Number(circle.Radius));
                break;
            case SceneRect rect:
                builder.OpenElement(70, "rect");
                builder.AddAttribute(71, "class", Style(rect));
                builder.AddAttribute(72, "x", SvgPath.Number(rect.Box.Left));
                builder.AddAttribute(73, "y", SvgPath.Number(rect.Box.Top));
                builder.AddAttribute(74, "width", SvgPath.Number(rect.Box.Width));
                builder.AddAttribute(75, "height", SvgPath.Number(rect.Box.Height));
                builder.AddAttribute(76, "fill", rect.Hatched ? $"url(#{Id}-h)" : null);
                break;
            case SceneText text:
                builder.OpenElement(80, "text");
                builder.AddAttribute(81, "class", Style(text));
                builder.AddAttribute(82, "x", SvgPath.Number(text.X));
                builder.AddAttribute(83, "y", SvgPath.Number(text.Y));
                builder.AddAttribute(
                    84, "text-anchor", text.Anchor switch { TextAnchor.Middle => "middle", TextAnchor.End => "end", _ => null });
                builder.AddAttribute(85, "font-size", text.Size.Equals(11) ? null : SvgPath.Number(text.Size));
                builder.AddAttribute(86, "font-weight", text.Bold ? "600" : null);
                builder.AddContent(87, text.Text);
                break;
            default:
                throw new InvalidOperationException($"The view knows no {item.GetType().Name}.");
        }

        builder.CloseElement();
    }

    private static string? Style(SceneItem item) => item.Class.Length == 0 ? null : item.Class;
}
