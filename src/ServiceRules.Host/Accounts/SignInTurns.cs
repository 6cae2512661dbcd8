using Microsoft.AspNetCore.Http;
using ServiceRules.Host.Problems;

namespace ServiceRules.Host.Accounts;

/// <summary>
/// Passwords are tried one after the other: each is dear to try, and of several guesses at once some would not be counted.
/// </summary>
internal sealed class SignInTurns : IDisposable
{
    // Whoever sends guesses in heaps shall not make everybody else wait.
    private const int WaitingMost = 8;

    private readonly SemaphoreSlim turn = new(1, 1);
    private int waiting;

    /// <summary>Null where too many wait already.</summary>
    public async Task<T?> TakeAsync<T>(Func<Task<T>> work, CancellationToken stop)
        where T : class
    {
        if (Interlocked.Increment(ref waiting) > WaitingMost)
        {
            Interlocked.Decrement(ref waiting);
            return null;
        }

        try
        {
            await turn.WaitAsync(stop);
        }
        finally
        {
            Interlocked.Decrement(ref waiting);
        }

        try
        {
            return await work();
        }
        finally
        {
            turn.Release();
        }
    }

    /// <summary>That too many wait already.</summary>
    public static IResult Others(HttpContext context)
    {
        context.Response.Headers.RetryAfter = "5";
        return Complaint.Of(ProblemKind.TooMany, "others are signing in; try again in a moment");
    }

    public void Dispose() => turn.Dispose();
}
