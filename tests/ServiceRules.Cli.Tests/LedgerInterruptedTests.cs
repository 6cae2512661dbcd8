using System.Diagnostics;
using ServiceRules.TestKit;

namespace ServiceRules.Cli.Tests;

/// <summary>A command that is ended by a signal while it reads a copy of a ledger.</summary>
public sealed class LedgerInterruptedTests : IDisposable
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(60);

    private readonly Product _product = new();

    public void Dispose() => _product.Dispose();

    /// <summary>Copying waits in a pipe that nobody writes to, with the database copied already.</summary>
    // Not by SIGINT: a shell that starts the tests beside other work has it passed over, by them and all that they start.
    [SkippableFact]
    public void Mend_EndedByASignal_LeavesNoCopyAndNeverOneOfTheKey()
    {
        Skip.If(OperatingSystem.IsWindows(), "there are no such signals");
        Ledger("add", Fixtures.PathOf("height-check"));
        Ledger("backup", _product.At("backup"));
        Shell($"mkfifo '{_product.At("backup/ledger.db-wal")}'");
        var temporary = Directory.CreateDirectory(_product.At("tmp")).FullName;
        using var process = Mending(temporary);
        try
        {
            var waited = Stopwatch.StartNew();
            string[] copied;
            while ((copied = Copies(temporary)).All(file => new FileInfo(file).Length == 0))
            {
                Assert.False(process.HasExited, "it ended before it was told to");
                Assert.True(waited.Elapsed < Patience, "nothing was copied");
                Thread.Sleep(5);
            }

            Assert.DoesNotContain(copied, file => file.EndsWith(".pem", StringComparison.Ordinal));
            Shell($"kill -TERM {process.Id}");

            Assert.True(process.WaitForExit(Patience), "it goes on");
            Assert.NotEqual(0, process.ExitCode);
            Assert.Empty(Directory.GetDirectories(temporary, "servicerules-*"));
        }
        finally
        {
            process.Kill();
        }
    }

    private Process Mending(string temporary)
    {
        var start = new ProcessStartInfo(
            "dotnet",
            [
                Path.Combine(AppContext.BaseDirectory, "servicerules.dll"),
                "ledger",
                "mend",
                "--from",
                _product.At("backup"),
                "--ledger",
                _product.At("ledger"),
            ]
        )
        {
            WorkingDirectory = _product.Folder,
        };
        start.Environment["TMPDIR"] = temporary;
        return Process.Start(start)!;
    }

    private static string[] Copies(string temporary) =>
        [
            .. Directory
                .GetDirectories(temporary, "servicerules-*")
                .SelectMany(folder => Directory.GetFiles(folder)),
        ];

    private static void Shell(string command)
    {
        using var process = Process.Start("sh", ["-c", command]);
        process.WaitForExit();
        Assert.Equal(0, process.ExitCode);
    }

    private void Ledger(params string[] arguments)
    {
        var outcome = _product.Run(["ledger", .. arguments, "--ledger", _product.At("ledger")]);
        Assert.True(outcome.ExitCode == 0, outcome.ToString());
    }
}
