using System.Globalization;
using System.Text.RegularExpressions;
using ServiceRules.TestKit;

namespace ServiceRules.Crash.Tests;

/// <summary>The private folder of a service, with a key to ask it; and what the command line says of its ledger.</summary>
internal sealed partial class DataFolder : IDisposable
{
    private readonly Product product = new();

    /// <param name="place">Where the data lies; null: in a folder of its own that goes with this.</param>
    public DataFolder(string? place = null) => Data = Path.Combine(place ?? product.Folder, "data");

    public string Data { get; }

    public string Ledger => Path.Combine(Data, "ledger");

    public string Database => Path.Combine(Ledger, "ledger.db");

    public string Checkpoints => Data + "-checkpoints";

    /// <summary>A key of a shop lead.</summary>
    public string NewKey()
    {
        var made = product.Run("accounts", "key", "--data", Data, "--name", "crash test", "--role", "lead");
        Assert.True(made.ExitCode == 0, made.ToString());
        return made.StandardOutput.Trim().Split('\n')[^1];
    }

    public ProductOutcome Verify() =>
        product.Run("ledger", "verify", "--ledger", Ledger, "--checkpoints", Checkpoints);

    /// <summary>What a command says of the ledger as it lies.</summary>
    public ProductOutcome Ask(params string[] command) =>
        product.Run(["ledger", .. command, "--ledger", Ledger]);

    public void Backup(string to)
    {
        var made = product.Run("ledger", "backup", to, "--ledger", Ledger);
        Assert.True(made.ExitCode == 0, made.ToString());
    }

    /// <summary>How many entries the log has, by what verifies it.</summary>
    public long Entries()
    {
        var verified = Verify();
        Assert.True(verified.ExitCode == 0, verified.ToString());
        var told = EntriesTold().Match(verified.StandardOutput);
        Assert.True(told.Success, verified.StandardOutput);
        return long.Parse(told.Groups[1].Value, CultureInfo.InvariantCulture);
    }

    /// <summary>A copy of all of it, as it lies.</summary>
    public DataFolder Copied()
    {
        var copy = new DataFolder();
        Copy(Data, copy.Data);
        if (Directory.Exists(Checkpoints))
        {
            Copy(Checkpoints, copy.Checkpoints);
        }

        return copy;
    }

    public void Dispose() => product.Dispose();

    private static void Copy(string from, string to)
    {
        var source = new DirectoryInfo(from);
        if (OperatingSystem.IsWindows())
        {
            Directory.CreateDirectory(to);
        }
        else
        {
            Directory.CreateDirectory(to, source.UnixFileMode);
        }

        foreach (var file in source.EnumerateFiles())
        {
            file.CopyTo(Path.Combine(to, file.Name));
        }

        foreach (var folder in source.EnumerateDirectories())
        {
            Copy(folder.FullName, Path.Combine(to, folder.Name));
        }
    }

    [GeneratedRegex(@"entries +(\d+),")]
    private static partial Regex EntriesTold();
}
