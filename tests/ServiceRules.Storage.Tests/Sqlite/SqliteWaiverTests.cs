using ServiceRules.Storage.Tests.Packs;

namespace ServiceRules.Storage.Tests.Sqlite;

public sealed class SqliteWaiverTests() : WaiverContract(() => new Drawer()) { }
