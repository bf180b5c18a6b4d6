using Microsoft.AspNetCore.Components;
using Spurless.Workbench.Folders;

namespace Spurless.Pages.Shell;

/// <summary>
/// What every page of the folder begins from. How to write one:
/// <list type="number">
/// <item>A component in <c>Pages/NAME/</c> with <c>@page "/name/{*File}"</c> and <c>@inherits FolderPage</c>; its word in
/// <see cref="PageLinks"/>. What is shown (file, receiver, finding) stands in the address, so that a view can be linked:
/// <c>[SupplyParameterFromQuery]</c> to read, <c>Navigation.NavigateTo(Navigation.GetUriWithQueryParameter(...), replace: true)</c> to
/// write.</item>
/// <item>The files: <see cref="Folder"/>. <c>Folder.Site(name)</c> is a site as it stands on disk, read, checked and kept until something
/// changes; <c>Folder.SiteOf(text)</c> one that is not written (a slider that moves). No page computes: call the services of Spurless.Sites
/// and Spurless.Reports.</item>
/// <item>Live: the frame disables every control until the page is live and marks the document with <c>data-live="yes"</c> (tests wait for
/// it). Prerendering runs <c>OnParametersSet</c> a second time, so keep what is dear in a service; long work starts only where
/// <see cref="Live"/> is true.</item>
/// <item>Saving: <c>Folder.Set(file, field, value, seen, what)</c> for one value, <c>Folder.Edit(file, what, splice)</c> for more at once.
/// <c>field</c> is written as in findings (<c>receivers[0].chain[1].attenuator</c>), <c>seen</c> is what the page showed when the user
/// began, <c>what</c> names the step for Undo ('filter out'). Both write at once; there is no Save button.</item>
/// <item>Conflicts: where someone else changed the same value since <c>seen</c>, nothing is written and the outcome holds what stands there
/// now: show both (<c>ConflictNotice</c>) and let the user choose. A change elsewhere in the file is no conflict.</item>
/// <item>Changes by an editor or another tab: <see cref="OnFolderChanged"/>, on the renderer's thread, followed by a redraw.</item>
/// <item>Typing survives a lost connection: give every text field <c>data-keep</c> (its own key on the page, the field's path) and
/// <c>data-value</c> (the value as saved), and save on <c>change</c>. The script puts back what was typed and not saved, also into a
/// program that was started again.</item>
/// <item>Style: classes of <c>Shell/Assets/shell.css</c> (the look), a page's own in <c>pages.css</c>; no <c>style</c> attribute and no
/// inline script, the policy forbids them. Pictures are the components of Spurless.Drawing.Studies.</item>
/// <item>Opens with its answer: <c>&lt;div class="said"&gt;&lt;h1 tabindex="-1"&gt;...</c>.</item>
/// </list>
/// </summary>
public abstract class FolderPage : ComponentBase, IDisposable
{
    /// <summary>The folder.</summary>
    [Inject]
    protected OpenFolder Folder { get; set; } = null!;

    /// <summary>The address.</summary>
    [Inject]
    protected NavigationManager Navigation { get; set; } = null!;

    [Inject]
    private protected TabState Tab { get; set; } = null!;

    /// <summary>Whether the page hears what the user does; else it is only being painted.</summary>
    protected bool Live => RendererInfo.IsInteractive;

    /// <summary>Something in the folder changed, whoever did it.</summary>
    protected virtual void OnFolderChanged(FolderChange change)
    {
    }

    /// <inheritdoc/>
    protected override void OnInitialized() => Folder.Changed += Heard;

    /// <inheritdoc/>
    public void Dispose()
    {
        Dispose(disposing: true);
        GC.SuppressFinalize(this);
    }

    /// <summary>Leaves the folder's changes; a page with more to end overrides it.</summary>
    protected virtual void Dispose(bool disposing)
    {
        if (disposing)
        {
            Folder.Changed -= Heard;
        }
    }

    private void Heard(FolderChange change) => _ = InvokeAsync(() =>
    {
        OnFolderChanged(change);
        StateHasChanged();
    });
}
