print("stubs: not yet")
