using System.Diagnostics;
using Xunit;

namespace ServiceRules.TestKit;

/// <summary>
/// An outside program that gives a second opinion. On a machine without it the test is skipped and says so; on the
/// build server it fails, so that no second opinion is lost unseen. Tests that use it are <c>[SkippableFact]</c>.
/// </summary>
public sealed class Tool
{
    /// <summary>Far beyond what any of the programs needs for a file of ours: longer means that it hangs.</summary>
    public static readonly TimeSpan TimeLimit = TimeSpan.FromSeconds(60);

    private readonly string _path;

    private Tool(string path) => _path = path;

    /// <summary>Where it lies, for a library that runs it.</summary>
    public string Path => _path;

    /// <summary>The program <paramref name="name"/> on the PATH; else the test is skipped, on the build server it fails.</summary>
    public static Tool Require(string name) => Require(name, TestRun.IsContinuousIntegration);

    internal static Tool Require(string name, bool mustExist)
    {
        var path = Find(name);
        if (path is null && mustExist)
        {
            throw new InvalidOperationException(
                $"the outside program `{name}` is not installed on the build server"
            );
        }

        Skip.If(path is null, $"the outside program `{name}` is not installed");
        return new Tool(path!);
    }

    /// <summary>Runs the program with nothing on standard input and plain English, UTC output.</summary>
    public ToolOutcome Run(params string[] arguments) => Run(TimeLimit, arguments);

    internal ToolOutcome Run(TimeSpan timeLimit, string[] arguments)
    {
        using var process = Process.Start(StartInfo(arguments))!;
        process.StandardInput.Close();
        var output = process.StandardOutput.ReadToEndAsync();
        var error = process.StandardError.ReadToEndAsync();
        if (!process.WaitForExit(timeLimit))
        {
            process.Kill(entireProcessTree: true);
            throw new TimeoutException(
                $"`{_path} {string.Join(' ', arguments)}` still ran after {timeLimit.TotalSeconds} s"
            );
        }

        return new ToolOutcome(
            process.ExitCode,
            output.GetAwaiter().GetResult(),
            error.GetAwaiter().GetResult()
        );
    }

    private ProcessStartInfo StartInfo(string[] arguments)
    {
        var start = new ProcessStartInfo(_path, arguments)
        {
            RedirectStandardInput = true,
            RedirectStandardOutput = true,
            RedirectStandardError = true,
            UseShellExecute = false,
        };
        start.Environment["LC_ALL"] = "C.UTF-8";
        start.Environment["TZ"] = "UTC";
        return start;
    }

    private static string? Find(string name)
    {
        string[] suffixes = OperatingSystem.IsWindows() ? [".exe", ".cmd"] : [""];
        var folders = (Environment.GetEnvironmentVariable("PATH") ?? "").Split(System.IO.Path.PathSeparator);
        return folders
            .Where(folder => folder.Length > 0)
            .SelectMany(folder => suffixes.Select(suffix => System.IO.Path.Combine(folder, name + suffix)))
            .FirstOrDefault(File.Exists);
    }
}
