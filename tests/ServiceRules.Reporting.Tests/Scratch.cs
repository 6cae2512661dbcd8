namespace ServiceRules.Reporting.Tests;

/// <summary>A folder of its own for one test, gone afterwards.</summary>
internal sealed class Scratch : IDisposable
{
    public string Folder { get; } = Directory.CreateTempSubdirectory("reporting-tests-").FullName;

    public string At(string name) => Path.Combine(Folder, name);

    public string Write(string name, ReadOnlySpan<byte> content)
    {
        var path = At(name);
        File.WriteAllBytes(path, content);
        return path;
    }

    public void Dispose() => Directory.Delete(Folder, recursive: true);
}
