using System.Globalization;
using Microsoft.AspNetCore.Components;
using Microsoft.JSInterop;

namespace Spurless.Pages.Shell;

/// <summary>
/// A page with pictures that are drawn for the width of their place, and that keeps what was moved and not written in its address.
/// </summary>
public abstract class PicturePage : FolderPage, IHandleEvent
{
    private const double Least = 300;
    private const double Most = 4000;
    private DotNetObjectReference<PicturePage>? _self;

    /// <summary>The place of the pictures.</summary>
    private protected ElementReference Figure { get; set; }

    /// <summary>Its width in pixels; null before the browser told it, now or when it showed the page last.</summary>
    [PersistentState]
    public double? Width { get; set; }

    /// <summary>Whether the page was left.</summary>
    private protected bool Gone { get; private set; }

    /// <summary>Whether a picture is there whose place has a width.</summary>
    private protected abstract bool HasPicture { get; }

    /// <summary>The addresses that the page wrote itself.</summary>
    private protected OwnSteps OwnSteps { get; } = new();

    [Inject]
    private IJSRuntime Script { get; set; } = null!;

    [CascadingParameter]
    private HttpContext? Request { get; set; }

    // The browser keeps it under the page's own name.
    private string Place => GetType().Name.ToLowerInvariant();

    /// <summary>The place has another width.</summary>
    [JSInvokable]
    public void Widened(double width)
    {
        double now = Shown(width);
        Tab.Widths[Place] = now;
        if (Width != now)
        {
            Width = now;
            StateHasChanged();
        }
    }

    /// <summary>
    /// Draws for the width of last time at once: else two pictures would be painted, for a wide and a narrow screen, two made again when
    /// the page is live and a fifth when the browser has told its width.
    /// </summary>
    protected override void OnInitialized()
    {
        base.OnInitialized();
        Width ??= Tab.Widths.TryGetValue(Place, out double told) ? told : Kept();
    }

    /// <inheritdoc/>
    protected override async Task OnAfterRenderAsync(bool firstRender)
    {
        if (Live && _self is null && HasPicture)
        {
            _self = DotNetObjectReference.Create(this);
            await Script.InvokeVoidAsync("spurless.watchWidth", Figure, _self, Place);
        }
    }

    /// <inheritdoc/>
    protected override void Dispose(bool disposing)
    {
        base.Dispose(disposing);
        Gone = true;
        _self?.Dispose();
    }

    private double? Kept() =>
        Request?.Request.Cookies[$"spurless-width-{Place}"] is { } text
            && double.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out double width) && width <= Most
            ? Shown(width) : null;

    private static double Shown(double width) => Math.Max(Least, Math.Floor(width));

    // As the framework does it, but a page that was left is not drawn again.
    Task IHandleEvent.HandleEventAsync(EventCallbackWorkItem item, object? arg)
    {
        Task task = item.InvokeAsync(arg);
        StateHasChanged();
        return task.IsCompletedSuccessfully ? task : AfterAsync(task);

        async Task AfterAsync(Task running)
        {
            await running;
            if (!Gone)
            {
                StateHasChanged();
            }
        }
    }
}
