using Microsoft.AspNetCore.Components;
using Microsoft.JSInterop;

namespace Spurless.Pages.Shell;

/// <summary>
/// A page with pictures that are drawn for the width of their place, and that keeps what was moved and not written in its address.
/// </summary>
public abstract class PicturePage : FolderPage, IHandleEvent
{
    private DotNetObjectReference<PicturePage>? _self;

    /// <summary>The place of the pictures.</summary>
    private protected ElementReference Figure { get; set; }

    /// <summary>Its width in pixels; null before the browser told it.</summary>
    private protected double? Width { get; private set; }

    /// <summary>Whether the page was left.</summary>
    private protected bool Gone { get; private set; }

    /// <summary>Whether a picture is there whose place has a width.</summary>
    private protected abstract bool HasPicture { get; }

    /// <summary>The addresses that the page wrote itself.</summary>
    private protected OwnSteps OwnSteps { get; } = new();

    [Inject]
    private IJSRuntime Script { get; set; } = null!;

    /// <summary>The place has another width.</summary>
    [JSInvokable]
    public void Widened(double width)
    {
        double now = Math.Max(300, Math.Floor(width));
        if (Width != now)
        {
            Width = now;
            StateHasChanged();
        }
    }

    /// <inheritdoc/>
    protected override async Task OnAfterRenderAsync(bool firstRender)
    {
        if (Live && _self is null && HasPicture)
        {
            _self = DotNetObjectReference.Create(this);
            await Script.InvokeVoidAsync("spurless.watchWidth", Figure, _self);
        }
    }

    /// <inheritdoc/>
    protected override void Dispose(bool disposing)
    {
        base.Dispose(disposing);
        Gone = true;
        _self?.Dispose();
    }

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
