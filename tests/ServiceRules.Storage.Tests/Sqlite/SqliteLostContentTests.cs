using ServiceRules.Storage.Tests.Submitting;

namespace ServiceRules.Storage.Tests.Sqlite;

public sealed class SqliteLostContentTests() : LostContentContract(() => new Drawer());
