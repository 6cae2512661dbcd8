using System.Text;
using ServiceRules.Application.Filed;

namespace ServiceRules.Reporting.Revocation;

/// <summary>The revocation list in a folder of keys.</summary>
public static class RevocationFile
{
    public const string FileName = "revocations.pem";

    public static string In(string keyFolder) => Path.Combine(keyFolder, FileName);

    /// <summary>The list; neither list nor fault when there is none yet.</summary>
    public static (RevocationList? List, string? Fault) Read(string keyFolder)
    {
        var path = In(keyFolder);
        if (!File.Exists(path))
        {
            return (null, null);
        }
        if (new FileInfo(path).Length > RevocationList.BytesMax)
        {
            return (null, $"`{path}` is larger than the {RevocationList.BytesMax} bytes that are accepted");
        }
        var (list, fault) = RevocationList.Read(File.ReadAllBytes(path));
        return (list, fault is null ? null : $"`{path}`: {fault}");
    }

    /// <summary>On return it has reached the disk.</summary>
    public static void Write(string keyFolder, RevocationList list) =>
        DurableFile.Write(In(keyFolder), Encoding.ASCII.GetBytes(list.Pem + "\n"), DurableFile.Private);
}
