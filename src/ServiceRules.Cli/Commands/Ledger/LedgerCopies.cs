using ServiceRules.Application.Filed;
using ServiceRules.Application.Ledger;
using ServiceRules.Cli.Setup;
using ServiceRules.Storage;

namespace ServiceRules.Cli.Commands.Ledger;

/// <summary>What the commands on copies of a ledger have in common.</summary>
internal static class LedgerCopies
{
    public static string Words(LedgerHead? head) =>
        head is null ? "nothing is filed in it" : $"{head.Size} entries, their tree has root {head.Root}";

    /// <exception cref="InputException">What stands in the way is what was given, and not the disk.</exception>
    public static T Write<T>(Func<T> copy)
    {
        try
        {
            return copy();
        }
        catch (LedgerStoreException refused)
            when (refused.Trouble is StoreTrouble.Failed or StoreTrouble.NotPrivate)
        {
            throw new InputException(refused.Message);
        }
    }

    /// <summary>The same for what lies beside a ledger.</summary>
    /// <exception cref="InputException">It cannot be read or written.</exception>
    public static void WriteFiles(Action copy)
    {
        try
        {
            copy();
        }
        catch (Exception failure)
            when (!DiskFull.Is(failure) && failure is IOException or UnauthorizedAccessException)
        {
            throw new InputException(failure.Message);
        }
    }

    /// <exception cref="InputException">Something is there already.</exception>
    public static void BeginService(string folder)
    {
        if (Directory.Exists(folder) && Directory.EnumerateFileSystemEntries(folder).Any())
        {
            throw new InputException(
                $"`{folder}` is not empty; accepted: a new or empty folder, which becomes the folder of the service"
            );
        }

        WriteFiles(() =>
        {
            if (PrivateFolder.Make(folder) is { } open)
            {
                throw new InputException(open);
            }
        });
    }

    /// <exception cref="InputException">There is no copy.</exception>
    public static void Check(string backup)
    {
        if (!LedgerBackup.IsIn(backup))
        {
            throw new InputException(
                $"`{backup}` holds no backup; accepted: a folder that `servicerules ledger backup` wrote to its end"
            );
        }
    }

    /// <summary>Tells what a copy came to.</summary>
    public static void Tell(Session session, string place, LedgerCopyTried tried)
    {
        session.Output.WriteLine(
            $"{place}: {(tried.IsSound ? "SOUND" : "NOT SOUND")}, {tried.Verified.Size} entries, their tree has root "
                + $"{tried.Verified.Root}, {tried.Verified.Contents} contents hashed again"
        );
        foreach (var fault in tried.Verified.Faults)
        {
            session.Output.WriteLine($"  FAULT  {fault.Code}: {fault}");
        }

        if (tried.Apart is { } apart)
        {
            session.Output.WriteLine($"  FAULT  {apart.Code}: it is no beginning of the log: {apart}");
        }

        if (tried.Missing > 0)
        {
            session.Output.WriteLine(
                $"  the newest {tried.Missing} of {tried.Known} entries are not in it: they were filed after it was made"
            );
        }
    }
}
