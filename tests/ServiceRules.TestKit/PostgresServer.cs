using System.Diagnostics;
using System.Globalization;
using Xunit;

namespace ServiceRules.TestKit;

/// <summary>
/// A PostgreSQL server of the tests' own, in a temporary folder, reached by a socket in it and by nobody else. Where its
/// programs are not installed the test is skipped and says so; on the build server it fails.
/// </summary>
public sealed class PostgresServer : IDisposable
{
    /// <summary>The account that Debian's package makes: the server does not run as root.</summary>
    private const string Account = "postgres";

    private static readonly TimeSpan TimeLimit = TimeSpan.FromSeconds(60);

    private static readonly TimeSpan StartLimit = TimeSpan.FromMinutes(4);

    private readonly string _programs;
    private readonly string _folder;
    private int _databases;

    private PostgresServer(string programs)
    {
        _programs = programs;
        _folder = Run("mktemp", "-d", "/tmp/servicerules-postgres-XXXXXX").Trim();
        // The server dies with the tests even when they end without a word.
        AppDomain.CurrentDomain.ProcessExit += (_, _) => Dispose();
        Run(Program("initdb"), "-D", Cluster, "-U", Account, "--auth=trust", "-E", "UTF8", "--locale=C");
        Start();
    }

    private string Cluster => Path.Combine(_folder, "cluster");

    private static bool IsRoot => Environment.IsPrivilegedProcess;

    /// <summary>Starts one.</summary>
    public static PostgresServer Require()
    {
        var programs = OperatingSystem.IsWindows() ? null : Find();
        if (programs is null && TestRun.IsContinuousIntegration)
        {
            throw new InvalidOperationException("PostgreSQL is not installed on the build server");
        }

        Skip.If(programs is null, "PostgreSQL is not installed");
        return new PostgresServer(programs!);
    }

    /// <summary>Makes an empty database.</summary>
    /// <returns>Its connection string.</returns>
    public string NewDatabase()
    {
        var name = string.Create(CultureInfo.InvariantCulture, $"t{Interlocked.Increment(ref _databases)}");
        Execute("postgres", $"CREATE DATABASE {name}");
        return $"Host={_folder};Username={Account};Database={name};Timeout=5;Command Timeout=60";
    }

    /// <summary>Runs a statement as the owner of everything.</summary>
    public void Execute(string database, string sql) =>
        Run(
            Program("psql"),
            "-X",
            "-q",
            "-v",
            "ON_ERROR_STOP=1",
            "-h",
            _folder,
            "-U",
            Account,
            "-d",
            database,
            "-c",
            sql
        );

    /// <summary>The room that its databases take on the disk, in bytes; the log that is written ahead is not among it.</summary>
    public long DatabaseBytes() =>
        long.Parse(
            Run(
                Program("psql"),
                "-X",
                "-A",
                "-t",
                "-h",
                _folder,
                "-U",
                Account,
                "-d",
                "postgres",
                "-c",
                "SELECT sum(pg_database_size(oid)) FROM pg_database"
            ),
            CultureInfo.InvariantCulture
        );

    /// <summary>Processor time that the server and those it started have used. Linux alone tells it.</summary>
    public TimeSpan ProcessorTime()
    {
        var server = File.ReadLines(Path.Combine(Cluster, "postmaster.pid")).First().Trim();
        return ProcessStatus
            .All()
            .Where(one => one.Id == server || one.Parent == server)
            .Aggregate(
                TimeSpan.Zero,
                (sum, one) => sum + one.Own + (one.Id == server ? one.OfEnded : TimeSpan.Zero)
            );
    }

    /// <summary>Copies a database with PostgreSQL's own programs: dumped, and restored into an empty one.</summary>
    public void Copy(string from, string to)
    {
        var dump = Path.Combine(_folder, from + ".dump");
        Run(Program("pg_dump"), "-h", _folder, "-U", Account, "--format=custom", "-f", dump, from);
        Run(Program("pg_restore"), "-h", _folder, "-U", Account, "--exit-on-error", "-d", to, dump);
    }

    /// <summary>Starts it, after a crash once it has recovered.</summary>
    public void Start() =>
        Run(
            StartLimit,
            Program("pg_ctl"),
            "-w",
            "-t",
            string.Create(CultureInfo.InvariantCulture, $"{StartLimit.TotalSeconds:0}"),
            "-D",
            Cluster,
            "-l",
            Path.Combine(_folder, "log"),
            "-o",
            $"-k {_folder} -c listen_addresses='' -c max_connections=100",
            "start"
        );

    /// <summary>Stops it as a crash would: nobody is waited for.</summary>
    public void Crash() => Run(Program("pg_ctl"), "-w", "-D", Cluster, "-m", "immediate", "stop");

    public void Dispose()
    {
        if (!Directory.Exists(_folder))
        {
            return;
        }

        if (File.Exists(Path.Combine(Cluster, "postmaster.pid")))
        {
            Crash();
        }

        Run("rm", "-rf", _folder);
    }

    private static string? Find()
    {
        var packaged = Directory.Exists("/usr/lib/postgresql")
            ? Directory
                .EnumerateDirectories("/usr/lib/postgresql")
                .OrderDescending(StringComparer.Ordinal)
                .Select(version => Path.Combine(version, "bin"))
            : [];
        return packaged
            .Concat((Environment.GetEnvironmentVariable("PATH") ?? "").Split(Path.PathSeparator))
            .FirstOrDefault(folder =>
                new[] { "initdb", "pg_ctl", "psql" }.All(name => File.Exists(Path.Combine(folder, name)))
            );
    }

    private string Program(string name) => Path.Combine(_programs, name);

    private static string Run(string program, params string[] arguments) =>
        Run(TimeLimit, program, arguments);

    private static string Run(TimeSpan limit, string program, params string[] arguments)
    {
        var start = new ProcessStartInfo(IsRoot ? "runuser" : program)
        {
            RedirectStandardOutput = true,
            RedirectStandardError = true,
            WorkingDirectory = "/tmp",
        };
        foreach (var argument in IsRoot ? ["-u", Account, "--", program, .. arguments] : arguments)
        {
            start.ArgumentList.Add(argument);
        }

        using var process = Process.Start(start)!;
        var output = process.StandardOutput.ReadToEndAsync();
        var error = process.StandardError.ReadToEndAsync();
        return process.WaitForExit(limit) && process.ExitCode == 0
            ? output.GetAwaiter().GetResult()
            : throw new InvalidOperationException(
                $"`{Path.GetFileName(program)}` failed: {error.GetAwaiter().GetResult()}"
            );
    }
}
