using ServiceRules.Application.Filed;

namespace ServiceRules.Cli.Setup;

/// <summary>A file that is on the disk under another name already, and gets its own once it counts.</summary>
internal sealed class DraftFile : IDisposable
{
    private readonly string draft;
    private readonly string path;

    private DraftFile(string draft, string path) => (this.draft, this.path) = (draft, path);

    /// <exception cref="InputException">It cannot be written.</exception>
    public static DraftFile Of(string path, byte[] content)
    {
        var draft = $"{path}.{Path.GetRandomFileName()}";
        try
        {
            InputFile.Write(draft, content);
            return new DraftFile(draft, path);
        }
        catch
        {
            File.Delete(draft);
            throw;
        }
    }

    /// <exception cref="InputException">It cannot get its name.</exception>
    public void Keep()
    {
        try
        {
            File.Move(draft, path, overwrite: true);
        }
        catch (Exception failure)
            when (!DiskFull.Is(failure) && failure is IOException or UnauthorizedAccessException)
        {
            throw new InputException($"`{path}` cannot be written: {failure.Message}");
        }
    }

    public void Dispose() => File.Delete(draft);
}
