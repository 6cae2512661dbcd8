using System.CommandLine;
using ServiceRules.Reporting.Revocation;

namespace ServiceRules.Cli.Setup;

/// <summary>Which keys no longer count here: the list of this machine's own keys, and the lists given.</summary>
internal static class RevocationLists
{
    public static Option<FileInfo[]> Option { get; } =
        new("--revocations")
        {
            Description =
                "Revocation list (X.509, PEM or DER) that the signing key must not be on. May be given more than once.",
            HelpName = "FILE",
        };

    public static bool AreGiven(ParseResult parsed) => parsed.GetValue(Option) is { Length: > 0 };

    /// <exception cref="InputException">A file is no list.</exception>
    public static IReadOnlyList<RevocationList> Load(ParseResult parsed)
    {
        List<RevocationList> lists = [.. (parsed.GetValue(Option) ?? []).Select(Read)];
        if (OfOwnKeys(SigningKeys.FolderOf(parsed)) is { } own)
        {
            lists.Add(own);
        }

        return lists;
    }

    /// <exception cref="InputException">The file is there and is no list.</exception>
    public static RevocationList? OfOwnKeys(string folder)
    {
        var (list, fault) = RevocationFile.Read(folder);
        return fault is null ? list : throw new InputException(fault);
    }

    /// <summary>Refuses to write a list over what is something else.</summary>
    /// <exception cref="InputException">There is such a file.</exception>
    public static void CheckPlace(FileInfo? target)
    {
        if (target is not null)
        {
            InputFile.CheckPlace(
                target.FullName,
                RevocationList.BytesMax,
                bytes => RevocationList.Read(bytes).List is not null,
                "revocation list"
            );
        }
    }

    private static RevocationList Read(FileInfo file)
    {
        var bytes = InputFile.ReadUpTo(file.FullName, RevocationList.BytesMax);
        if (bytes.Length > RevocationList.BytesMax)
        {
            throw new InputException(
                $"`{file}` is larger than the {RevocationList.BytesMax} bytes that are accepted"
            );
        }

        var (list, fault) = RevocationList.Read(bytes);
        return list ?? throw new InputException($"`{file}`: {fault}");
    }
}
