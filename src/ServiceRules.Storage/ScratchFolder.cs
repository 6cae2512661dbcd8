using System.Runtime.InteropServices;

namespace ServiceRules.Storage;

/// <summary>
/// A private folder for what is needed while a command runs. It goes when it is disposed of, and where a signal ends the program before.
/// </summary>
public sealed class ScratchFolder : IDisposable
{
    private const int Times = 20;

    private static readonly TimeSpan Between = TimeSpan.FromMilliseconds(10);

    private static readonly PosixSignal[] Ends =
    [
        PosixSignal.SIGINT,
        PosixSignal.SIGTERM,
        PosixSignal.SIGHUP,
        PosixSignal.SIGQUIT,
    ];

    private readonly List<PosixSignalRegistration> registrations;

    /// <param name="prefix">What its name begins with.</param>
    public ScratchFolder(string prefix)
    {
        Folder = Directory.CreateTempSubdirectory(prefix).FullName;
        // What the signal does is left as it is: it ends the program, after this.
        registrations = [.. Ends.Select(end => PosixSignalRegistration.Create(end, _ => RemoveAtTheEnd()))];
    }

    /// <summary>Where it is.</summary>
    public string Folder { get; }

    public void Dispose()
    {
        foreach (var registration in registrations)
        {
            registration.Dispose();
        }

        if (Directory.Exists(Folder))
        {
            Directory.Delete(Folder, recursive: true);
        }
    }

    // The program writes on meanwhile, so that a file may be made in a folder that was just found empty.
    private void RemoveAtTheEnd()
    {
        for (var time = 0; time < Times && Directory.Exists(Folder); time++)
        {
            try
            {
                Directory.Delete(Folder, recursive: true);
            }
            catch (Exception failure) when (failure is IOException or UnauthorizedAccessException)
            {
                Thread.Sleep(Between);
            }
        }
    }
}
