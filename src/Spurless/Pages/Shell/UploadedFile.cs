using Microsoft.AspNetCore.Components.Forms;
using Microsoft.JSInterop;

namespace Spurless.Pages.Shell;

/// <summary>Reading a file that a person chose or dropped.</summary>
internal static class UploadedFile
{
    /// <summary>
    /// Copies it. On the way it can be moved or changed on the person's disk, or another be chosen in its place: that is told, and ends
    /// nothing but this.
    /// </summary>
    /// <param name="file">The file.</param>
    /// <param name="most">The most octets that are read.</param>
    /// <param name="to">Where to; what was read before it failed stands there.</param>
    /// <returns>'What; what to do instead', or null where all was copied.</returns>
    public static async Task<string?> CopyAsync(this IBrowserFile file, long most, Stream to)
    {
        try
        {
            await using Stream from = file.OpenReadStream(most);
            await from.CopyToAsync(to);
            return null;
        }
        catch (Exception e) when (e is IOException or JSException or TimeoutException or InvalidOperationException)
        {
            return $"'{file.Name}' could not be read to its end; see that it still lies where it did, and choose it again";
        }
    }
}
