using System.Diagnostics;

namespace ServiceRules.TestKit;

/// <summary>A folder in which somebody types commands, with the built command line among the programs found there.</summary>
public sealed class ShellSession
{
    private static readonly TimeSpan TimeLimit = TimeSpan.FromSeconds(120);

    private readonly string _folder;
    private readonly string _programs;

    /// <param name="folder">Where the commands are typed; a subfolder for the programs is made beside it.</param>
    public ShellSession(string folder)
    {
        _folder = folder;
        _programs = Directory.CreateDirectory(folder + "-programs").FullName;
        var product = Path.Combine(_programs, "servicerules");
        File.WriteAllText(
            product,
            $"#!/bin/sh\nexec dotnet '{Path.Combine(AppContext.BaseDirectory, "servicerules.dll")}' \"$@\"\n"
        );
        if (!OperatingSystem.IsWindows())
        {
            File.SetUnixFileMode(
                product,
                UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.UserExecute
            );
        }
    }

    /// <summary>Types the commands into one shell, which stops at the first that fails.</summary>
    public ToolOutcome Type(string commands)
    {
        var start = new ProcessStartInfo("sh", ["-e", "-c", commands])
        {
            RedirectStandardInput = true,
            RedirectStandardOutput = true,
            RedirectStandardError = true,
            WorkingDirectory = _folder,
        };
        start.Environment["PATH"] =
            _programs + Path.PathSeparator + Environment.GetEnvironmentVariable("PATH");
        start.Environment["HOME"] = _programs;
        start.Environment["XDG_DATA_HOME"] = _programs;
        start.Environment["LC_ALL"] = "C.UTF-8";
        start.Environment["TZ"] = "UTC";
        using var process = Process.Start(start)!;
        process.StandardInput.Close();
        var output = process.StandardOutput.ReadToEndAsync();
        var error = process.StandardError.ReadToEndAsync();
        if (!process.WaitForExit(TimeLimit))
        {
            process.Kill(entireProcessTree: true);
            throw new TimeoutException($"the commands still ran after {TimeLimit.TotalSeconds} s");
        }

        return new ToolOutcome(
            process.ExitCode,
            output.GetAwaiter().GetResult(),
            error.GetAwaiter().GetResult()
        );
    }
}
