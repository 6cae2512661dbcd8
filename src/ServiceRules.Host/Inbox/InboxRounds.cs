using System.Globalization;
using Microsoft.Extensions.Diagnostics.HealthChecks;
using Microsoft.Extensions.Logging;
using ServiceRules.Formats.Imports;
using ServiceRules.Formats.Json;
using ServiceRules.Storage.Inbox;

namespace ServiceRules.Host.Inbox;

/// <summary>Looks into the inbox: what has settled is taken, filed, answered and put away, one file after the other.</summary>
internal sealed partial class InboxRounds(
    InboxFolder folder,
    InboxSettings settings,
    InboxDesk desk,
    TimeProvider clock,
    ILogger<InboxRounds> log
) : IHealthCheck
{
    private readonly Dictionary<(string Name, bool IsTaken), (DroppedFile File, long Since)> seen = [];
    private readonly Dictionary<string, long> left = new(StringComparer.Ordinal);
    private long? pausedAt;
    private volatile string? trouble;
    private volatile int waiting;

    /// <summary>One round.</summary>
    public async Task RunAsync(CancellationToken stop)
    {
        if (pausedAt is { } at && clock.GetElapsedTime(at) < settings.Pause)
        {
            return;
        }

        pausedAt = null;
        trouble = null;
        if (folder.Fault() is { } fault)
        {
            Wait("its folders are not as they were made", fault);
            return;
        }

        var there = folder.Look();
        waiting = there.Count(file => !file.IsMapping);
        Forget(there);
        foreach (var file in there.Where(HasSettled).Where(file => !file.IsMapping && !IsLeft(file)))
        {
            stop.ThrowIfCancellationRequested();
            try
            {
                if (!await HandleAsync(file, stop))
                {
                    Wait("the store took nothing", "what was dropped waits");
                    return;
                }
            }
            catch (Exception failure) when (failure is IOException or UnauthorizedAccessException)
            {
                // One that cannot be moved, or answered, keeps none of the others waiting.
                left[file.Name] = clock.GetTimestamp();
                trouble = "a file cannot be taken or put away";
                // Its message would name the file, and so perhaps a person.
                NotMoved(log, failure.GetType().Name);
            }
        }
    }

    public Task<HealthCheckResult> CheckHealthAsync(
        HealthCheckContext context,
        CancellationToken cancellationToken = default
    )
    {
        var told = string.Create(CultureInfo.InvariantCulture, $"{waiting} files wait");
        // What is asked over HTTP is answered all the same.
        return Task.FromResult(
            trouble is { } why
                ? HealthCheckResult.Degraded($"{told}: {why}")
                : HealthCheckResult.Healthy(told)
        );
    }

    /// <summary>Leaves the inbox alone for a while.</summary>
    public void Wait(string why, string detail)
    {
        pausedAt = clock.GetTimestamp();
        trouble = why;
        Waits(log, why, detail);
    }

    // The answer is false where everything has to wait.
    private async Task<bool> HandleAsync(DroppedFile dropped, CancellationToken stop)
    {
        if (!TryMapping(dropped, out var mappingFile))
        {
            return true;
        }

        // The mapping first: a table that was taken without it would be refused.
        if (mappingFile is not null)
        {
            mappingFile = folder.Take(mappingFile);
        }

        if (folder.Take(dropped) is not { } file)
        {
            return true;
        }

        if (file with { IsTaken = dropped.IsTaken } != dropped)
        {
            // Somebody went on writing; it is looked at again where it is now.
            return true;
        }

        switch (await AnswerAsync(file, mappingFile, stop))
        {
            case (InboxAnswer answer, _):
                folder.PutAway(file, answer.Outcome is InboxOutcome.Filed, desk.Written(answer), mappingFile);
                _ = seen.Remove((file.Name, file.IsTaken));
                waiting--;
                Answered(log, answer.Outcome);
                return true;
            case (_, var isUnsettled):
                return isUnsettled;
        }
    }

    private async Task<(InboxAnswer? Answer, bool IsUnsettled)> AnswerAsync(
        DroppedFile file,
        DroppedFile? mappingFile,
        CancellationToken stop
    )
    {
        switch (folder.Read(file, InboxDesk.BytesMost(file.Name)))
        {
            case DroppedContent.Unsettled:
                return (null, true);
            case DroppedContent.Unfit unfit:
                return (desk.Refused(file, unfit.What, unfit.Accepted), false);
            case DroppedContent.Bytes { All: var bytes }:
                var mapping = settings.Mapping;
                if (mappingFile is not null && !TryRead(mappingFile, out mapping, out var wrong))
                {
                    return (
                        desk.Refused(file, $"its mapping `{mappingFile.Name}`: {wrong}", "", bytes),
                        false
                    );
                }

                return (await desk.FileAsync(file, bytes, mapping, stop), false);
            default:
                throw new InvalidOperationException("an unknown outcome of reading");
        }
    }

    // The answer is false while the mapping is still being written.
    private bool TryMapping(DroppedFile file, out DroppedFile? mapping)
    {
        mapping = InboxDesk.IsTable(file.Name) ? folder.Mapping(file.MappingName) : null;
        return mapping is null || mapping.IsTaken || HasSettled(mapping);
    }

    private bool TryRead(DroppedFile file, out ImportMapping? mapping, out string wrong)
    {
        mapping = null;
        wrong = "";
        switch (folder.Read(file, ReadLimits.Record.Bytes))
        {
            case DroppedContent.Bytes { All: var bytes }:
                var isRead = ImportMappingFormat.Current.Read(bytes).TryGet(out mapping, out var problems);
                wrong = string.Join("; ", problems.Lines());
                return isRead;
            case DroppedContent.Unfit unfit:
                wrong = $"{unfit.What}; accepted: {unfit.Accepted}";
                return false;
            default:
                wrong =
                    "somebody still writes to it; accepted: to drop both again, each put in place by renaming";
                return false;
        }
    }

    private bool HasSettled(DroppedFile file)
    {
        var key = (file.Name, file.IsTaken);
        if (!seen.TryGetValue(key, out var before) || before.File != file)
        {
            seen[key] = (file, clock.GetTimestamp());
            return settings.Settled == TimeSpan.Zero;
        }

        return clock.GetElapsedTime(before.Since) >= settings.Settled;
    }

    private bool IsLeft(DroppedFile file) =>
        left.TryGetValue(file.Name, out var since) && clock.GetElapsedTime(since) < settings.Pause;

    private void Forget(IReadOnlyList<DroppedFile> there)
    {
        var names = there.Select(file => (file.Name, file.IsTaken)).ToHashSet();
        foreach (var gone in seen.Keys.Where(key => !names.Contains(key)).ToList())
        {
            _ = seen.Remove(gone);
            _ = left.Remove(gone.Name);
        }
    }

    [LoggerMessage(Level = LogLevel.Information, Message = "a file of the inbox was answered: {Outcome}")]
    private static partial void Answered(ILogger logger, InboxOutcome outcome);

    [LoggerMessage(
        Level = LogLevel.Warning,
        Message = "a file of the inbox cannot be taken or put away: {Why}"
    )]
    private static partial void NotMoved(ILogger logger, string why);

    [LoggerMessage(Level = LogLevel.Warning, Message = "the inbox waits: {Why} ({Detail})")]
    private static partial void Waits(ILogger logger, string why, string detail);
}
